"""The flags of `fitter cushions` as the command line declares them; loaded for every `--help`, so nothing heavy is."""

from __future__ import annotations

from typing import Annotated

import typer

from fitter.cli.flags import (
    Debug,
    File,
    Json,
    NoPlan,
    Out,
    Quiet,
    Seconds,
    Sheet,
    chosen,
    folder,
    refuse,
    silent,
)
from fitter.cli.running import run

_MOST_JOBS = 256


def cushions(
    file: File,
    catalogue: Annotated[
        str,
        typer.Argument(
            metavar="CATALOGUE.csv",
            help="Cushions, with the columns name, width, depth, thickness, and if wanted price, seats, back width, "
            "back height, back thickness, may_turn, may_notch, ease.",
            show_default=False,
        ),
    ],
    json: Json = False,
    jobs: Annotated[
        int | None, typer.Option(metavar="N", help="Solve so many at once; as many as there are cores if not said.")
    ] = None,
    time: Seconds = None,
    cluster: Annotated[
        str | None, typer.Option(metavar="ADDRESS", help="Solve on the Dask cluster with this scheduler.")
    ] = None,
    out: Out = None,
    sheet: Sheet = None,
    no_plan: NoPlan = False,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Try each cushion of a catalogue in this room, and rank them by what their best layouts come to."""
    if file.lower().endswith(".csv") and not catalogue.lower().endswith(".csv"):
        refuse("FILE", "the project file comes first, then the catalogue")
    if jobs is not None and not 1 <= jobs <= _MOST_JOBS:
        refuse("--jobs", f"{jobs} is not from 1 to {_MOST_JOBS}")
    if jobs is not None and cluster is not None:
        refuse("--jobs", "a cluster decides by itself how many it solves at once")
    if cluster is not None and not cluster.strip():
        refuse("--cluster", "no address is given")

    def work() -> int:
        # The solver loads only here, so that help stays quick.
        from fitter.cli.catalogue import Call, try_catalogue

        pictures = folder(json, out, no_plan)
        return try_catalogue(
            Call(file, catalogue, json, jobs, time, cluster, pictures, chosen(sheet), silent(quiet, json))
        )

    run(work, as_json=json, debug=debug)
