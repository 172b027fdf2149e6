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
from fitter.cli.flags import (
    MOST_LAYOUTS,
    BuyAtMost,
    BuyUpTo,
    Debug,
    DrawnIn,
    File,
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
    layout_number,
    shed,
    solving,
)
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


class Near(str, Enum):  # noqa: UP042 - typer shows the members of a str enumeration
    """Which changes are tried for one more seat."""

    NO = "no"
    EASY = "easy"
    ALL = "all"


def _version(wanted: bool) -> None:
    if wanted:
        # The registry of installed packages is read only for this one question.
        from importlib.metadata import PackageNotFoundError, version

        try:
            print(f"fitter {version('patio-fitter')}")
        except PackageNotFoundError:
            print("fitter, not installed: run from its source")
        raise typer.Exit


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
    sheet: Sheet = None,
    denominator: Finest = None,
    debug: Debug = False,
) -> None:
    """Close the tape readings, and tell how far each is off."""

    def work() -> int:
        # Geometry and the file reader load only here, so that help stays quick.
        from fitter.cli.measuring import Call, measure_file

        return measure_file(Call(file, json, finest(denominator, 64), compass, plan, chosen(sheet)))

    run(work, as_json=json, debug=debug)


@app.command()
def fit(
    file: File,
    json: Json = False,
    out: Out = None,
    time: Seconds = None,
    layouts: Annotated[
        int,
        typer.Option(
            parser=layout_number, metavar="N", help=f"Give the N best layouts that differ, up to {MOST_LAYOUTS}."
        ),
    ] = 1,
    only_owned: OnlyOwned = False,
    buy_at_most: BuyUpTo = None,
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
    sheet: Sheet = None,
    no_plan: NoPlan = False,
    denominator: Finest = None,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Find the best layout, prove it, check it, and draw the plan."""
    buy_most = 0 if only_owned else buy_at_most
    asked = solving(json, time, sheet, denominator, quiet, only_owned=only_owned, buy_most=buy_most, fill=fill)

    def work() -> int:
        # The solver loads only here, so that help stays quick.
        from fitter.cli.fitting import Call, fit_file
        from fitter.domain.near import Looked

        call = Call(
            file,
            json,
            folder=folder(json, out, no_plan),
            **asked,
            layouts=layouts,
            buy_up_to=buy_at_most if only_owned else None,
            cures=not no_cures,
            sources=sources,
            near=Looked(near.value),
        )
        return fit_file(call)

    run(work, as_json=json, debug=debug)


@app.command()
def parts(
    file: File,
    json: Json = False,
    layout: Ranked = 1,
    out: Out = None,
    time: Seconds = None,
    only_owned: OnlyOwned = False,
    buy_at_most: BuyAtMost = None,
    fill: Fill = None,
    sheet: Sheet = None,
    no_plan: NoPlan = False,
    denominator: Finest = None,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Fit, then list and draw every part of the wooden frame, and prove that none is missing."""
    buy_most = shed(only_owned, buy_at_most)
    asked = solving(json, time, sheet, denominator, quiet, only_owned=only_owned, buy_most=buy_most, fill=fill)

    def work() -> int:
        # As above.
        from fitter.cli.framing import Call, frame_file

        call = Call(
            file,
            json,
            folder=folder(json, out, no_plan),
            **asked,
            layout=layout,
        )
        return frame_file(call)

    run(work, as_json=json, debug=debug)


@app.command()
def variants(
    file: File,
    json: Json = False,
    out: DrawnIn = None,
    time: Seconds = None,
    only_owned: OnlyOwned = False,
    buy_at_most: BuyAtMost = None,
    fill: Fill = None,
    sheet: Sheet = None,
    denominator: Finest = None,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Fit, then build the plan at neighbouring sizes for other rooms, and tell what changes."""
    buy_most = shed(only_owned, buy_at_most)
    asked = solving(json, time, sheet, denominator, quiet, only_owned=only_owned, buy_most=buy_most, fill=fill)

    def work() -> int:
        # As above.
        from fitter.cli.calls import ProjectCall
        from fitter.cli.neighbours import variants_of

        call = ProjectCall(
            file,
            json,
            folder=out,
            **asked,
        )
        return variants_of(call)

    run(work, as_json=json, debug=debug)


app.command()(corners)
app.command()(cuts)
app.command()(buy)
app.command()(cushions)
app.command()(sweep)


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
