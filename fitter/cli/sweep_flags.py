"""The flags of `fitter sweep` as the command line declares them; loaded for every `--help`, so nothing heavy is."""

from __future__ import annotations

from typing import Annotated

import typer

from fitter.cli.flags import (
    Debug,
    DrawnIn,
    File,
    Finest,
    Json,
    Quiet,
    Seconds,
    Sheet,
    solving,
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
    out: DrawnIn = None,
    time: Seconds = None,
    sheet: Sheet = None,
    denominator: Finest = None,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Let one number of the file vary, and tell exactly where the answer changes."""
    asked = solving(json, time, sheet, denominator, quiet)

    def work() -> int:
        # The solver loads only here, so that help stays quick.
        from fitter.cli.sweeping import Call, sweep_file

        call = Call(
            file,
            json,
            folder=out,
            **asked,
            vary=vary,
            show=show,
        )
        return sweep_file(call)

    run(work, as_json=json, debug=debug)
