"""The flags of `fitter buy` as the command line declares them; loaded for every `--help`, so nothing heavy is."""

from __future__ import annotations

import os
from math import isfinite
from pathlib import Path
from typing import Annotated

import typer

from fitter.cli.running import run

_MOST_LAYOUTS = 20


def _layout(value: object) -> int:
    text = str(value)  # the default comes as a number
    if not (text.isascii() and text.isdigit() and 1 <= int(text[:9]) <= _MOST_LAYOUTS):
        message = f"`{text}` is not a whole number from 1 to {_MOST_LAYOUTS}"
        raise typer.BadParameter(message)
    return int(text)


def buy(
    file: Annotated[str, typer.Argument(metavar="FILE", help="The project file, in YAML.", show_default=False)],
    json: Annotated[bool, typer.Option("--json", help="Print one JSON document instead of tables.")] = False,
    layout: Annotated[
        int, typer.Option(parser=_layout, metavar="N", help=f"Buy for the N-th best layout, up to {_MOST_LAYOUTS}.")
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
    denominator: Annotated[int, typer.Option(metavar="16|32|64", help="Finest fraction of an inch.")] = 16,
    quiet: Annotated[bool, typer.Option("--quiet", help="Show no progress.")] = False,
    debug: Annotated[bool, typer.Option("--debug", help="Show the whole traceback of a mistake of ours.")] = False,
) -> None:
    """Fit, then list everything to buy, what it costs, and the tools that it takes."""
    if denominator not in (16, 32, 64):
        message = f"{denominator} is not 16, 32 or 64"
        raise typer.BadParameter(message, param_hint="'--denominator'")
    if time is not None and not (isfinite(time) and time > 0):
        message = f"{time:g} is not a number of seconds above zero"
        raise typer.BadParameter(message, param_hint="'--time'")
    silent = quiet or json or bool(os.environ.get("FITTER_NO_PROGRESS"))

    def work() -> int:
        # The solver loads only here, so that help stays quick.
        from fitter.cli.buying import Call, buy_for

        return buy_for(Call(file, json, layout, csv, force, prices, time, denominator, silent))

    run(work, as_json=json, debug=debug)
