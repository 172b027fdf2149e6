"""The command line. What a command does lies in a module of its own, loaded only when it is called.

Help, version and completion must answer at once, and the solver, geometry and drawing take a second to load.
"""

from __future__ import annotations

import os
import sys
from enum import Enum
from pathlib import Path
from typing import Annotated

import typer

from fitter.cli.buy_flags import buy
from fitter.cli.catalogue_flags import cushions
from fitter.cli.corners import corners
from fitter.cli.cut_flags import cuts
from fitter.cli.flags import MOST_LAYOUTS, Debug, File, Json, NoPlan, Quiet, check_seconds, layout_number, silent
from fitter.cli.running import WRONG, Done, discard_output, run, show_failure, unwritten
from fitter.cli.starting.options import new
from fitter.cli.sweep_flags import sweep

__all__ = ["app", "main"]

_INTERRUPTED = 130

app = typer.Typer(
    no_args_is_help=True,
    # A traceback tells a maker nothing; `--debug` shows it to those who want it.
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)


class Paper(str, Enum):  # noqa: UP042 - typer shows the members of a str enumeration
    """Sheets that a plan can be forced onto."""

    A4 = "A4"
    A3 = "A3"
    LETTER = "Letter"
    TABLOID = "Tabloid"


class Filling(str, Enum):  # noqa: UP042 - as above
    """What may take up the room that is left."""

    NONE = "none"
    SHELF = "shelf"
    ARM = "arm"
    EASE = "ease"
    ANY = "any"


class Near(str, Enum):  # noqa: UP042 - as above
    """Which changes are tried for one more seat."""

    NO = "no"
    EASY = "easy"
    ALL = "all"


class Fraction(str, Enum):  # noqa: UP042 - as above
    """Finest fractions of an inch that are printed."""

    SIXTEENTH = "16"
    THIRTY_SECOND = "32"
    SIXTY_FOURTH = "64"


def _version(wanted: bool) -> None:
    if wanted:
        # The registry of installed packages is read only for this one question.
        from importlib.metadata import PackageNotFoundError, version

        try:
            print(f"fitter {version('patio-fitter')}")
        except PackageNotFoundError:
            print("fitter, not installed: run from its source")
        raise typer.Exit


_MOST_BOUGHT = 1000


def _bought(value: object) -> int:
    text = str(value)
    if not (text.isascii() and text.isdigit() and int(text[:9]) <= _MOST_BOUGHT):
        message = f"`{text}` is not a whole number from 0 to {_MOST_BOUGHT}"
        raise typer.BadParameter(message)
    return int(text)


def _seconds(value: float | None) -> float | None:
    check_seconds(value)
    return value


Seconds = Annotated[
    float | None,
    typer.Option(callback=_seconds, metavar="SECONDS", help="Stop the search then, with the best so far."),
]
Fill = Annotated[
    Filling | None,
    typer.Option("--fill", help="Fill the room that is left, whatever the file says.", show_default=False),
]
Finest = Annotated[Fraction | None, typer.Option("--denominator", help="Finest fraction of an inch.")]


@app.callback()
def about(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version and stop.")
    ] = False,
) -> None:
    """Fits outdoor seating, built around cushions you can buy, into a taped room, and proves it best."""


app.command()(new)


@app.command()
def measure(
    file: File,
    json: Json = False,
    compass: Annotated[bool, typer.Option("--compass", help="Lay the compass rule beside the least squares.")] = False,
    plan: Annotated[
        Path | None,
        typer.Option(
            "--plan", "--out", file_okay=False, metavar="FOLDER", help="Draw the survey there.", show_default=False
        ),
    ] = None,
    sheet: Annotated[Paper | None, typer.Option(case_sensitive=False, help="Paper of the drawing.")] = None,
    denominator: Finest = None,
    debug: Debug = False,
) -> None:
    """Close the tape readings, and tell how far each is off."""

    def work() -> int:
        # Geometry and the file reader load only here, so that help stays quick.
        from fitter.cli.measuring import Call, measure_file

        finest = int(denominator.value) if denominator else 64
        return measure_file(Call(file, json, finest, compass, plan, sheet.value if sheet else None))

    run(work, as_json=json, debug=debug)


@app.command()
def fit(
    file: File,
    json: Json = False,
    out: Annotated[
        Path | None,
        typer.Option(file_okay=False, help="Folder for the plan; the current one if not said.", show_default=False),
    ] = None,
    time: Seconds = None,
    layouts: Annotated[
        int,
        typer.Option(
            parser=layout_number, metavar="N", help=f"Give the N best layouts that differ, up to {MOST_LAYOUTS}."
        ),
    ] = 1,
    only_owned: Annotated[
        bool, typer.Option("--only-owned", help="Buy no cushion: make the most of the shed.")
    ] = False,
    buy_at_most: Annotated[
        int | None,
        typer.Option(
            parser=_bought,
            metavar="N",
            help="Buy N cushions at most; with --only-owned: tell what 1, 2, … N would bring.",
            show_default=False,
        ),
    ] = None,
    fill: Fill = None,
    no_cures: Annotated[
        bool, typer.Option("--no-cures", help="Where nothing fits, do not look for what would help.")
    ] = False,
    near: Annotated[
        Near, typer.Option(help="Which changes to try for one more seat, where it fits; all may take minutes.")
    ] = Near.EASY,
    sources: Annotated[
        bool, typer.Option("--sources", help="Tell where each number comes from that the file does not say.")
    ] = False,
    sheet: Annotated[Paper | None, typer.Option(case_sensitive=False, help="Paper of the plan.")] = None,
    no_plan: NoPlan = False,
    denominator: Finest = None,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Find the best layout, prove it, check it, and draw the plan."""
    folder = _folder(json, out, no_plan)

    def work() -> int:
        # The solver loads only here, so that help stays quick.
        from fitter.cli.fitting import Call, fit_file
        from fitter.domain.near import Looked

        finest = int(denominator.value) if denominator else 16
        paper = sheet.value if sheet else None
        filling = fill.value if fill else None
        shed = (only_owned, buy_at_most)
        call = Call(
            file,
            json,
            folder,
            time,
            paper,
            finest,
            silent(quiet, json),
            layouts,
            *shed,
            not no_cures,
            fill=filling,
            sources=sources,
            near=Looked(near.value),
        )
        return fit_file(call)

    run(work, as_json=json, debug=debug)


@app.command()
def parts(
    file: File,
    json: Json = False,
    layout: Annotated[
        int,
        typer.Option(parser=layout_number, metavar="N", help=f"Frame the N-th best layout, up to {MOST_LAYOUTS}."),
    ] = 1,
    out: Annotated[
        Path | None,
        typer.Option(file_okay=False, help="Folder for the drawings; the current one if not said.", show_default=False),
    ] = None,
    time: Seconds = None,
    fill: Fill = None,
    sheet: Annotated[Paper | None, typer.Option(case_sensitive=False, help="Paper of the drawings.")] = None,
    no_plan: NoPlan = False,
    denominator: Finest = None,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Fit, then list and draw every part of the wooden frame, and prove that none is missing."""
    folder = _folder(json, out, no_plan)

    def work() -> int:
        # As above.
        from fitter.cli.framing import Call, frame_file

        finest = int(denominator.value) if denominator else 16
        paper = sheet.value if sheet else None
        filling = fill.value if fill else None
        return frame_file(Call(file, json, folder, time, paper, finest, silent(quiet, json), layout, fill=filling))

    run(work, as_json=json, debug=debug)


@app.command()
def variants(
    file: File,
    json: Json = False,
    out: Annotated[
        Path | None, typer.Option(file_okay=False, help="Folder for a page of drawings.", show_default=False)
    ] = None,
    time: Seconds = None,
    sheet: Annotated[Paper | None, typer.Option(case_sensitive=False, help="Paper of the page.")] = None,
    denominator: Finest = None,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Fit, then build the plan at neighbouring sizes for other rooms, and tell what changes."""

    def work() -> int:
        # As above.
        from fitter.cli.calls import ProjectCall
        from fitter.cli.neighbours import variants_of

        finest = int(denominator.value) if denominator else 16
        paper = sheet.value if sheet else None
        return variants_of(ProjectCall(file, json, out, time, paper, finest, silent(quiet, json)))

    run(work, as_json=json, debug=debug)


app.command()(corners)
app.command()(cuts)
app.command()(buy)
app.command()(cushions)
app.command()(sweep)


def _folder(json: bool, out: Path | None, no_plan: bool) -> Path | None:
    """Where drawings go; a document alone is asked for without them."""
    return None if no_plan or (json and out is None) else out or Path()


def main() -> None:
    """Run the command line and exit with the code that tells how it went."""
    # A room's matrices have a few hundred rows: threads cost more there than they save, most on a busy machine.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    # A stream that the caller has closed takes everything, and keeps nothing.
    sys.stdout = sys.stdout or open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115 - lives as long as the process
    sys.stderr = sys.stderr or open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115
    try:
        app(prog_name="fitter")
    except OSError as error:
        # The help alone is printed outside of a command's work.
        print(f"fitter: error[cannot-write]: {unwritten(error)}", file=sys.stderr)
        discard_output()
        raise SystemExit(WRONG) from None
    except Done:
        raise
    except SystemExit as stop:
        # A wrong call ends before any command of ours has printed its document.
        if stop.code == 2 and "--json" in sys.argv[1:]:
            show_failure("invalid", "usage", "the command line is wrong; see standard error")
        raise
    except KeyboardInterrupt:
        raise SystemExit(_INTERRUPTED) from None
