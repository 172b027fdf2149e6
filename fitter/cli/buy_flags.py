"""The flags of `fitter buy` as the command line declares them; loaded for every `--help`, so nothing heavy is."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from fitter.cli.flags import (
    MOST_LAYOUTS,
    Debug,
    Denominator,
    File,
    Json,
    Quiet,
    check_denominator,
    check_seconds,
    layout_number,
    silent,
)
from fitter.cli.running import run


def buy(
    file: File,
    json: Json = False,
    layout: Annotated[
        int,
        typer.Option(parser=layout_number, metavar="N", help=f"Buy for the N-th best layout, up to {MOST_LAYOUTS}."),
    ] = 1,
    prices: Annotated[
        str | None, typer.Option(metavar="PRICES.csv", help="Columns item,price[,per].", show_default=False)
    ] = None,
    csv: Annotated[
        Path | None,
        typer.Option(
            dir_okay=False, metavar="FILE", help="Write the list there, to fill prices in.", show_default=False
        ),
    ] = None,
    force: Annotated[bool, typer.Option("--force", help="Write over a file that is there.")] = False,
    time: Annotated[
        float | None, typer.Option(metavar="SECONDS", help="Stop the search then, with the best so far.")
    ] = None,
    denominator: Denominator = 16,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Fit, then list everything to buy, what it costs, and the tools that it takes."""
    check_denominator(denominator)
    check_seconds(time)

    def work() -> int:
        # The solver loads only here, so that help stays quick.
        from fitter.cli.buying import Call, buy_for

        return buy_for(Call(file, json, layout, csv, force, prices, time, denominator, silent(quiet, json)))

    run(work, as_json=json, debug=debug)
