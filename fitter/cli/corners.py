"""The flags of `fitter corners` as the command line declares them; loaded for every `--help`, so nothing heavy is."""

from __future__ import annotations

from fitter.cli.flags import (
    BuyAtMost,
    Debug,
    DrawnIn,
    File,
    Finest,
    Json,
    OnlyOwned,
    Quiet,
    Seconds,
    Sheet,
    shed,
    solving,
)
from fitter.cli.running import run


def corners(
    file: File,
    json: Json = False,
    out: DrawnIn = None,
    time: Seconds = None,
    only_owned: OnlyOwned = False,
    buy_at_most: BuyAtMost = None,
    sheet: Sheet = None,
    denominator: Finest = None,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Fit with each corner treatment, and lay what they give and cost side by side."""
    buy_most = shed(only_owned, buy_at_most)
    asked = solving(json, time, sheet, denominator, quiet, only_owned=only_owned, buy_most=buy_most)

    def work() -> int:
        # The solver loads only here, so that help stays quick.
        from fitter.cli.calls import ProjectCall
        from fitter.cli.cornering import corners_of

        call = ProjectCall(
            file,
            json,
            folder=out,
            **asked,
        )
        return corners_of(call)

    run(work, as_json=json, debug=debug)
