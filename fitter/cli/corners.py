"""The flags of `fitter corners` as the command line declares them; loaded for every `--help`, so nothing heavy is."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from fitter.cli.flags import (
    Debug,
    Denominator,
    File,
    Json,
    Quiet,
    check_denominator,
    check_seconds,
    paper_named,
    silent,
)
from fitter.cli.running import run


def corners(
    file: File,
    json: Json = False,
    out: Annotated[
        Path | None, typer.Option(file_okay=False, help="Folder for a page of drawings.", show_default=False)
    ] = None,
    time: Annotated[
        float | None, typer.Option(metavar="SECONDS", help="Stop the search for each treatment then.")
    ] = None,
    sheet: Annotated[
        str | None, typer.Option(metavar="A4|A3|Letter|Tabloid", help="Paper of the page.", show_default=False)
    ] = None,
    denominator: Denominator = 16,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Fit with each corner treatment, and lay what they give and cost side by side."""
    check_denominator(denominator)
    check_seconds(time)
    paper = paper_named(sheet)

    def work() -> int:
        # The solver loads only here, so that help stays quick.
        from fitter.cli.calls import ProjectCall
        from fitter.cli.cornering import corners_of

        return corners_of(ProjectCall(file, json, out, time, paper, denominator, silent(quiet, json)))

    run(work, as_json=json, debug=debug)
