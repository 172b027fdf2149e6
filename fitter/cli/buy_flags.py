"""The flags of `fitter buy` as the command line declares them; loaded for every `--help`, so nothing heavy is."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from fitter.cli.flags import (
    BuyAtMost,
    Debug,
    File,
    Fill,
    Finest,
    Json,
    OnlyOwned,
    Quiet,
    Ranked,
    Seconds,
    shed,
    solving,
)
from fitter.cli.running import run


def buy(
    file: File,
    json: Json = False,
    layout: Ranked = 1,
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
    time: Seconds = None,
    only_owned: OnlyOwned = False,
    buy_at_most: BuyAtMost = None,
    fill: Fill = None,
    denominator: Finest = None,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Fit, then list everything to buy, what it costs, and the tools that it takes."""
    buy_most = shed(only_owned, buy_at_most)
    asked = solving(json, time, None, denominator, quiet, only_owned=only_owned, buy_most=buy_most, fill=fill)

    def work() -> int:
        # The solver loads only here, so that help stays quick.
        from fitter.cli.buying import Call, buy_for

        call = Call(
            file,
            json,
            **asked,
            layout=layout,
            values=csv,
            force=force,
            prices=prices,
        )
        return buy_for(call)

    run(work, as_json=json, debug=debug)
