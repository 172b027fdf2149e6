"""The flags of `fitter cushions` as the command line declares them; loaded for every `--help`, so nothing heavy is."""

from __future__ import annotations

import os
from math import isfinite
from pathlib import Path
from typing import Annotated, NoReturn

import typer

from fitter.cli.running import run

_PAPERS = ("A4", "A3", "Letter", "Tabloid")
_MOST_JOBS = 256


def cushions(
    file: Annotated[str, typer.Argument(metavar="FILE", help="The project file, in YAML.", show_default=False)],
    catalogue: Annotated[
        str,
        typer.Argument(
            metavar="CATALOGUE.csv",
            help="Cushions, with the columns name, width, depth, thickness, and if wanted price, seats, back width, "
            "back height, back thickness, may_turn, may_notch, ease.",
            show_default=False,
        ),
    ],
    json: Annotated[bool, typer.Option("--json", help="Print one JSON document instead of tables.")] = False,
    jobs: Annotated[
        int | None, typer.Option(metavar="N", help="Solve so many at once; as many as there are cores if not said.")
    ] = None,
    limit: Annotated[
        float | None, typer.Option(metavar="SECONDS", help="Stop the search for a cushion then, with the best so far.")
    ] = None,
    cluster: Annotated[
        str | None, typer.Option(metavar="ADDRESS", help="Solve on the Dask cluster with this scheduler.")
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(file_okay=False, help="Folder for the picture; the current one if not said.", show_default=False),
    ] = None,
    sheet: Annotated[str | None, typer.Option(metavar="|".join(_PAPERS), help="Paper of the picture.")] = None,
    no_plan: Annotated[bool, typer.Option("--no-plan", help="Draw nothing.")] = False,
    quiet: Annotated[bool, typer.Option("--quiet", help="Show no progress.")] = False,
    debug: Annotated[bool, typer.Option("--debug", help="Show the whole traceback of a mistake of ours.")] = False,
) -> None:
    """Try each cushion of a catalogue in this room, and rank them by what their best layouts come to."""
    if file.lower().endswith(".csv") and not catalogue.lower().endswith(".csv"):
        _refuse("FILE", "the project file comes first, then the catalogue")
    if jobs is not None and not 1 <= jobs <= _MOST_JOBS:
        _refuse("--jobs", f"{jobs} is not from 1 to {_MOST_JOBS}")
    if jobs is not None and cluster is not None:
        _refuse("--jobs", "a cluster decides by itself how many it solves at once")
    if limit is not None and not (isfinite(limit) and limit > 0):
        _refuse("--limit", f"{limit:g} is not a number of seconds above zero")
    if cluster is not None and not cluster.strip():
        _refuse("--cluster", "no address is given")
    paper = next((paper for paper in _PAPERS if sheet is not None and paper.lower() == sheet.lower()), None)
    if sheet is not None and paper is None:
        _refuse("--sheet", f"`{sheet}` is not one of {', '.join(_PAPERS)}")
    folder = None if no_plan or (json and out is None) else out or Path()

    def work() -> int:
        # The solver loads only here, so that help stays quick.
        from fitter.cli.catalogue import Call, try_catalogue

        silent = quiet or json or bool(os.environ.get("FITTER_NO_PROGRESS"))
        return try_catalogue(Call(file, catalogue, json, jobs, limit, cluster, folder, paper, silent))

    run(work, as_json=json, debug=debug)


def _refuse(flag: str, message: str) -> NoReturn:
    raise typer.BadParameter(message, param_hint=f"'{flag}'")
