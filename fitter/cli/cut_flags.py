"""The flags of `fitter cuts` as the command line declares them; loaded for every `--help`, so nothing heavy is."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Annotated

import typer

from fitter.cli.flags import (
    BuyAtMost,
    Debug,
    Fill,
    Finest,
    Json,
    NoPlan,
    OnlyOwned,
    Out,
    Quiet,
    Ranked,
    Seconds,
    Sheet,
    chosen,
    finest,
    folder,
    refuse,
    shed,
    solving,
)
from fitter.cli.running import run
from rooms.lengths import ZERO, Length, LengthError, Unit, parse_length

if TYPE_CHECKING:
    from fitter.domain.cuts import CutOptions

_UNITS = "in|ft|mm|cm|m"
_THICKEST_KERF = Length.millimetres(25)
_MOST_DEFECTS = 50


def cuts(
    file: Annotated[
        str,
        typer.Argument(
            metavar="FILE",
            help="A project file, in YAML; or with --boards a list of parts: section,length,count[,mark].",
            show_default=False,
        ),
    ],
    boards: Annotated[
        str | None, typer.Option(metavar="BOARDS.csv", help="Of a list: section,length,price[,have].")
    ] = None,
    kerf: Annotated[
        str | None, typer.Option(metavar="LENGTH", help='Of a list: width of a saw cut; 1/8" or 3 mm if not said.')
    ] = None,
    trim: Annotated[
        str | None, typer.Option(metavar="LENGTH", help="Of a list: cut off each end of a board first.")
    ] = None,
    units: Annotated[
        str | None, typer.Option(metavar=_UNITS, help="Of a list: what a bare number means; inches if not said.")
    ] = None,
    longest: Annotated[
        str | None,
        typer.Option("--carried", metavar="LENGTH", help="Of a list: longest board that you can bring home."),
    ] = None,
    keep: Annotated[
        str | None,
        typer.Option(metavar="LENGTH", help="Of a list: a shorter offcut is waste; a foot or 300 mm if not said."),
    ] = None,
    defects: Annotated[
        float, typer.Option(metavar="PERCENT", help="Share of each board left unused for knots and splits.")
    ] = 0.0,
    on_hand: Annotated[
        str, typer.Option(metavar="first|cheaper", help="Boards on hand: use freely, or only if that saves money.")
    ] = "first",
    aims: Annotated[
        str, typer.Option(metavar="AIM,…", help="What comes next after cost: boards, waste, patterns, offcut.")
    ] = "boards,waste,patterns,offcut",
    json: Json = False,
    time: Seconds = None,
    layout: Ranked = 1,
    only_owned: OnlyOwned = False,
    buy_at_most: BuyAtMost = None,
    fill: Fill = None,
    out: Out = None,
    sheet: Sheet = None,
    no_plan: NoPlan = False,
    denominator: Finest = None,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Find the cheapest boards for a project, or for a list of parts; prove it, and tell where to saw them."""
    if boards is None and file.lower().endswith(".csv"):
        refuse("--boards", "a list of parts needs a list of boards with it")
    if boards is None:
        _refuse_said(
            {"--kerf": kerf, "--trim": trim, "--units": units, "--carried": longest, "--keep": keep},
        )
    else:
        said = {"--layout": layout != 1, "--only-owned": only_owned, "--fill": fill is not None}
        for flag in (flag for flag, there in (*said.items(), ("--buy-at-most", buy_at_most is not None)) if there):
            refuse(flag, "goes with a project; a list of parts has no layouts and no cushions")
    unit = _unit(units or "in")
    options = _Given(kerf, trim or "0", longest, keep, defects, on_hand, aims).options(unit)
    buy_most = shed(only_owned, buy_at_most)
    asked = solving(json, time, sheet, denominator, quiet, only_owned=only_owned, buy_most=buy_most, fill=fill)

    def work() -> int:
        # The file readers load only here, so that help stays quick.
        if boards is not None:
            from fitter.cli.cutting import Call, cut_lists

            # A list says nothing of where pictures should go.
            pictures = None if no_plan else out
            listed = Call(file, boards, unit, options, json, time, finest(denominator), pictures, chosen(sheet))
            return cut_lists(listed)
        from fitter.cli import boarding

        call = boarding.Call(
            file,
            json,
            folder=folder(json, out, no_plan),
            **asked,
            layout=layout,
            options=options,
        )
        return boarding.board_file(call)

    run(work, as_json=json, debug=debug)


def _refuse_said(flags: dict[str, str | None]) -> None:
    """Flags of a list make no sense where the project file says the same."""
    said = next((flag for flag, text in flags.items() if text is not None), None)
    if said is not None:
        refuse(said, "goes with a list of parts and `--boards`; a project file says it under `shop`")


class _Given:
    """How boards are cut, as written on the command line."""

    def __init__(
        self, kerf: str | None, trim: str, longest: str | None, keep: str | None, defects: float, hand: str, aims: str
    ) -> None:
        self._kerf, self._trim, self._longest, self._keep = kerf, trim, longest, keep
        self._defects, self._hand, self._aims = defects, hand, aims

    def options(self, unit: Unit) -> CutOptions:
        """The same as values; a usage error where one makes no sense."""
        # Loads what `--help` can do without.
        from fitter.domain.cuts import Aim, CutOptions, OnHand

        metric = not unit.imperial
        kerf = _length("--kerf", self._kerf, unit, Length.millimetres(3) if metric else Length.inches("1/8"))
        if kerf > _THICKEST_KERF:
            refuse(
                "--kerf", f"`{self._kerf}` is wider than any saw cut; is the unit right? A bare number means `{unit}`"
            )
        trim = _length("--trim", self._trim, unit, ZERO)
        keep = _length("--keep", self._keep, unit, Length.millimetres(300) if metric else Length.inches(12))
        longest = _length("--carried", self._longest, unit, None) if self._longest is not None else None
        if not 0 <= self._defects <= _MOST_DEFECTS:
            refuse("--defects", f"{self._defects:g} is not between 0 and {_MOST_DEFECTS} per cent")
        if self._hand not in list(OnHand):
            refuse("--on-hand", f"`{self._hand}` is neither `first` nor `cheaper`")
        words = [word.strip() for word in self._aims.split(",") if word.strip()]
        for word in words:
            if word not in list(Aim) or words.count(word) > 1:
                refuse("--aims", f"`{word}` is no aim, or is there twice: write some of boards,waste,patterns,offcut")
        aims = (Aim.COST, *(Aim(word) for word in words if word != Aim.COST))
        defects = Fraction(str(self._defects)) / 100 if self._defects else None
        return CutOptions(kerf, trim, unit.mark, longest, keep, defects, OnHand(self._hand), aims)


def _unit(text: str) -> Unit:
    if text not in list(Unit):
        refuse("--units", f"`{text}` is not one of {_UNITS.replace('|', ', ')}")
    return Unit(text)


def _length(flag: str, text: str | None, unit: Unit, usual: Length | None) -> Length:
    if text is None:
        assert usual is not None
        return usual
    try:
        return parse_length(text, unit)
    except LengthError as error:
        refuse(flag, f"{error}; {error.help}")
