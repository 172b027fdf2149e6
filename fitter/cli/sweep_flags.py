"""The flags of `fitter sweep` as the command line declares them; loaded for every `--help`, so nothing heavy is."""

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


def sweep(
    file: File,
    vary: Annotated[
        str,
        typer.Option(
            metavar="KEY=FROM..TO[:STEP]",
            help="A number of the file, such as room.routes.0.width=30..48:1.",
            show_default=False,
        ),
    ],
    show: Annotated[
        str,
        typer.Option(
            metavar="WORDS",
            help="Of seats, layout, cost, notched, tall, buy, posts, lengths, off_edge, area and verdict.",
        ),
    ] = "seats,layout",
    json: Json = False,
    out: Annotated[
        Path | None, typer.Option(file_okay=False, help="Folder for a picture of the steps.", show_default=False)
    ] = None,
    time: Annotated[
        float | None, typer.Option(metavar="SECONDS", help="Stop each search then, with the best so far.")
    ] = None,
    sheet: Annotated[
        str | None, typer.Option(metavar="A4|A3|Letter|Tabloid", help="Paper of the picture.", show_default=False)
    ] = None,
    denominator: Denominator = 16,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Let one number of the file vary, and tell exactly where the answer changes."""
    check_denominator(denominator)
    check_seconds(time)
    paper = paper_named(sheet)

    def work() -> int:
        # The solver loads only here, so that help stays quick.
        from fitter.cli.sweeping import Call, sweep_file

        return sweep_file(Call(file, json, out, time, paper, denominator, silent(quiet, json), vary, show))

    run(work, as_json=json, debug=debug)
