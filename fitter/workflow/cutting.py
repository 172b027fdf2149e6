"""Parts and boards to a plan: solved, then checked."""

from __future__ import annotations

import time
from collections.abc import Sequence

from fitter.checking import check_plan
from fitter.cutting import NoPlanError, plan_boards
from fitter.domain.cuts import CutOptions, CutResult, Piece, Stock
from fitter.domain.layout import Verdict
from fitter.domain.saw_list import short_first, small
from rooms.lengths import Unit

__all__ = ["cut"]


def cut(
    pieces: Sequence[Piece], stocks: Sequence[Stock], options: CutOptions, limit: float | None = None
) -> CutResult:  # fmt: skip
    """The cheapest boards for some parts, checked.

    Args:
        pieces: the parts; each shorter than some board of its section.
        stocks: the boards, all with a price or none.
        options: how they are cut, and what is aimed at.
        limit: seconds; None for no limit.
    """
    started = time.monotonic()
    try:
        plan = plan_boards(pieces, stocks, options, limit)
    except NoPlanError as error:
        verdict = Verdict.IMPOSSIBLE if error.proven else Verdict.UNKNOWN
        return CutResult(verdict, section=error.section, seconds=time.monotonic() - started)
    metric = options.mark == Unit.MM.mark
    plan = short_first(plan, options, small(Unit.MM if metric else Unit.IN))
    checked = check_plan(pieces, stocks, options, plan)
    verdict = Verdict.FAULT if checked else Verdict.PROVEN if plan.proven else Verdict.FOUND
    return CutResult(verdict, plan, checked=checked, seconds=time.monotonic() - started)
