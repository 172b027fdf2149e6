"""The flags of `fitter sweep` as the command line declares them; loaded for every `--help`, so nothing heavy is."""

from __future__ import annotations

import os
from math import isfinite
from pathlib import Path
from typing import Annotated

import typer

from fitter.cli.running import run

_PAPERS = ("A4", "A3", "Letter", "Tabloid")


def sweep(
    file: Annotated[str, typer.Argument(metavar="FILE", help="The project file, in YAML.", show_default=False)],
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
    json: Annotated[bool, typer.Option("--json", help="Print one JSON document instead of tables.")] = False,
    out: Annotated[
        Path | None, typer.Option(file_okay=False, help="Folder for a picture of the steps.", show_default=False)
    ] = None,
    time: Annotated[
        float | None, typer.Option(metavar="SECONDS", help="Stop each search then, with the best so far.")
    ] = None,
    sheet: Annotated[
        str | None, typer.Option(metavar="A4|A3|Letter|Tabloid", help="Paper of the picture.", show_default=False)
    ] = None,
    denominator: Annotated[int, typer.Option(metavar="16|32|64", help="Finest fraction of an inch.")] = 16,
    quiet: Annotated[bool, typer.Option("--quiet", help="Show no progress.")] = False,
    debug: Annotated[bool, typer.Option("--debug", help="Show the whole traceback of a mistake of ours.")] = False,
) -> None:
    """Let one number of the file vary, and tell exactly where the answer changes."""
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
        from fitter.cli.sweeping import Call, sweep_file

        return sweep_file(Call(file, json, out, time, sheet, denominator, silent, vary, show))

    run(work, as_json=json, debug=debug)
