"""Flags that several commands share, and what is asked of their values; loaded for every `--help`: nothing heavy."""

from __future__ import annotations

import os
from enum import Enum
from math import isfinite
from pathlib import Path
from typing import Annotated, NoReturn, TypedDict

import typer

MOST_LAYOUTS = 20
_MOST_BOUGHT = 1000
_USUAL_FRACTION = 16


class Paper(str, Enum):  # noqa: UP042 - typer shows the members of a str enumeration
    """Sheets that a drawing can be forced onto."""

    A4 = "A4"
    A3 = "A3"
    LETTER = "Letter"
    TABLOID = "Tabloid"


class Fraction(str, Enum):  # noqa: UP042 - as above
    """Finest fractions of an inch that are printed."""

    SIXTEENTH = "16"
    THIRTY_SECOND = "32"
    SIXTY_FOURTH = "64"


class Filling(str, Enum):  # noqa: UP042 - as above
    """What may take up the room that is left."""

    NONE = "none"
    SHELF = "shelf"
    ARM = "arm"
    EASE = "ease"
    ANY = "any"


def refuse(flag: str, message: str) -> NoReturn:
    """End with a usage error that names the flag."""
    raise typer.BadParameter(message, param_hint=f"'{flag}'")


def _whole(value: object, least: int, most: int) -> int:
    """A whole number, as a parser of an option."""
    text = str(value)  # the default comes as a number
    if not (text.isascii() and text.isdigit() and least <= int(text[:9]) <= most):
        message = f"`{text}` is not a whole number from {least} to {most}"
        raise typer.BadParameter(message)
    return int(text)


def layout_number(value: object) -> int:
    """How many layouts, or which one, as a parser of an option."""
    return _whole(value, 1, MOST_LAYOUTS)


def _bought(value: object) -> int:
    return _whole(value, 0, _MOST_BOUGHT)


def _seconds(value: float | None) -> float | None:
    """A time limit is above zero, and finite."""
    if value is not None and not (isfinite(value) and value > 0):
        message = f"{value:g} is not a number of seconds above zero"
        raise typer.BadParameter(message)
    return value


File = Annotated[str, typer.Argument(metavar="FILE", help="The project file, in YAML.", show_default=False)]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document instead of tables.")]
Ranked = Annotated[
    int,
    typer.Option(
        "--layout", parser=layout_number, metavar="N", help=f"Take the N-th best layout, up to {MOST_LAYOUTS}."
    ),
]
Seconds = Annotated[
    float | None,
    typer.Option("--time", callback=_seconds, metavar="SECONDS", help="Stop each search then, with the best so far."),
]
OnlyOwned = Annotated[bool, typer.Option("--only-owned", help="Buy no cushion: make the most of the shed.")]
BuyAtMost = Annotated[
    int | None,
    typer.Option("--buy-at-most", parser=_bought, metavar="N", help="Buy N cushions at most.", show_default=False),
]
BuyUpTo = Annotated[
    int | None,
    typer.Option(
        "--buy-at-most",
        parser=_bought,
        metavar="N",
        help="Buy N cushions at most; with --only-owned: tell what 1, 2, … N would bring.",
        show_default=False,
    ),
]
Fill = Annotated[
    Filling | None,
    typer.Option(
        "--fill",
        metavar="|".join(Filling),
        help="Fill the room that is left, whatever the file says.",
        show_default=False,
    ),
]
Out = Annotated[
    Path | None,
    typer.Option(
        "--out", file_okay=False, help="Folder for the drawings; the current one if not said.", show_default=False
    ),
]
DrawnIn = Annotated[
    Path | None,
    typer.Option(
        "--out", file_okay=False, help="Folder for a page of drawings; none is made if not said.", show_default=False
    ),
]
Sheet = Annotated[
    Paper | None,
    typer.Option(
        "--sheet",
        case_sensitive=False,
        metavar="|".join(Paper),
        help="Paper of the drawings.",
        show_default=False,
    ),
]
NoPlan = Annotated[bool, typer.Option("--no-plan", help="Draw nothing.")]
Finest = Annotated[
    Fraction | None,
    typer.Option("--denominator", metavar="|".join(Fraction), help="Finest fraction of an inch.", show_default=False),
]
Quiet = Annotated[bool, typer.Option("--quiet", help="Show no progress.")]
Debug = Annotated[bool, typer.Option("--debug", help="Show the whole traceback of a mistake of ours.")]


def shed(only_owned: bool, buy_at_most: int | None) -> int | None:
    """How many cushions may be bought; None for what the file says."""
    if only_owned and buy_at_most is not None:
        refuse("--buy-at-most", "goes without --only-owned here; `fitter fit` tells with both what each would bring")
    return 0 if only_owned else buy_at_most


class Solving(TypedDict):
    """What the calls of all commands that solve a project share; see `fitter.cli.calls.ProjectCall`."""

    limit: float | None
    sheet: str | None
    denominator: int
    silent: bool
    buy_most: int | None
    only_owned: bool
    fill: str | None


def solving(
    json: bool,
    time: float | None,
    sheet: Paper | None,
    denominator: Fraction | None,
    quiet: bool,
    *,
    only_owned: bool = False,
    buy_most: int | None = None,
    fill: Filling | None = None,
) -> Solving:
    """The flags that such commands share, as their calls take them."""
    return Solving(
        limit=time,
        sheet=chosen(sheet),
        denominator=finest(denominator),
        silent=silent(quiet, json),
        buy_most=buy_most,
        only_owned=only_owned,
        fill=chosen(fill),
    )


def chosen(member: Enum | None) -> str | None:
    """What was written for one of several words; None where nothing was."""
    return None if member is None else str(member.value)


def finest(fraction: Fraction | None, usual: int = _USUAL_FRACTION) -> int:
    """The denominator of the finest fraction that is printed."""
    return usual if fraction is None else int(fraction.value)


def folder(json: bool, out: Path | None, no_plan: bool) -> Path | None:
    """Where drawings go; a document alone is asked for without them."""
    return None if no_plan or (json and out is None) else out or Path()


def silent(quiet: bool, json: bool) -> bool:
    """Whether no progress is shown."""
    return quiet or json or bool(os.environ.get("FITTER_NO_PROGRESS"))
