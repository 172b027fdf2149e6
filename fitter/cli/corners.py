"""The flags of `fitter corners` as the command line declares them; loaded for every `--help`, so nothing heavy is."""

from __future__ import annotations

import os
from math import isfinite
from pathlib import Path
from typing import Annotated

import typer

from fitter.cli.running import run

_PAPERS = ("A4", "A3", "Letter", "Tabloid")


def corners(
    file: Annotated[str, typer.Argument(metavar="FILE", help="The project file, in YAML.", show_default=False)],
    json: Annotated[bool, typer.Option("--json", help="Print one JSON document instead of tables.")] = False,
    out: Annotated[
        Path | None, typer.Option(file_okay=False, help="Folder for a page of drawings.", show_default=False)
    ] = None,
    time: Annotated[
        float | None, typer.Option(metavar="SECONDS", help="Stop the search for each treatment then.")
    ] = None,
    sheet: Annotated[
        str | None, typer.Option(metavar="A4|A3|Letter|Tabloid", help="Paper of the page.", show_default=False)
    ] = None,
    denominator: Annotated[int, typer.Option(metavar="16|32|64", help="Finest fraction of an inch.")] = 16,
    quiet: Annotated[bool, typer.Option("--quiet", help="Show no progress.")] = False,
    debug: Annotated[bool, typer.Option("--debug", help="Show the whole traceback of a mistake of ours.")] = False,
) -> None:
    """Fit with each corner treatment, and lay what they give and cost side by side."""
    if denominator not in (16, 32, 64):
        message = f"{denominator} is not 16, 32 or 64"
        raise typer.BadParameter(message, param_hint="'--denominator'")
    if time is not None and not (isfinite(time) and time > 0):
        message = f"{time:g} is not a number of seconds above zero"
        raise typer.BadParameter(message, param_hint="'--time'")
    if sheet is not None and sheet.lower() not in [paper.lower() for paper in _PAPERS]:
        message = f"`{sheet}` is not one of {', '.join(_PAPERS)}"
        raise typer.BadParameter(message, param_hint="'--sheet'")
    silent = quiet or json or bool(os.environ.get("FITTER_NO_PROGRESS"))

    def work() -> int:
        # The solver loads only here, so that help stays quick.
        from fitter.cli.calls import ProjectCall
        from fitter.cli.cornering import corners_of

        return corners_of(ProjectCall(file, json, out, time, sheet, denominator, silent))

    run(work, as_json=json, debug=debug)
