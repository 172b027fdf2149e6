"""`fitter fit` where it fits: what the next seat would cost, after the answer."""

from __future__ import annotations

import sys
from dataclasses import replace
from typing import TYPE_CHECKING

from fitter.cli.trying import trying_line
from fitter.domain.clock import Clock
from fitter.domain.layout import Verdict
from fitter.domain.near import Looked, next_seat
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.workflow.nearing import Neared, neared

if TYPE_CHECKING:
    from fitter.cli.fitting import Call


def wants_near(call: Call, project: Project, found: FitResult) -> bool:
    """Whether it is told what the next seat would cost: of a proven best layout that nothing is held against."""
    proven = bool(found.layouts) and found.layouts[0].verdict is Verdict.PROVEN
    if call.near is Looked.NO or not proven or found.interrupted or found.refused or found.verdict is Verdict.FAULT:
        return False
    return next_seat(project, found.layouts[0].layout) is not None


def looked_for(call: Call, project: Project, found: FitResult, clock: Clock) -> Neared:
    """Look for what the next seat would cost, with a line on the terminal that tells what is being tried.

    Args:
        call: what was asked.
        project: that fits.
        found: its answer, whose best layout is proven.
        clock: the time for all.
    """
    layout = found.layouts[0].layout
    with trying_line(silent=call.silent) as trying:
        return neared(project, layout, call.near, clock.left, trying.update if trying else None)


def with_near(call: Call, project: Project, found: FitResult, clock: Clock) -> FitResult:
    """The answer with what the next seat would cost, or a `fault`; stopped meanwhile, it stays as it is."""
    if not wants_near(call, project, found):
        return found
    told = looked_for(call, project, found, clock)
    if told.checked:
        return replace(found, verdict=Verdict.FAULT, checked=told.checked)
    return replace(found, near=told.next_seat)


def tell_near(call: Call, project: Project, found: FitResult, clock: Clock) -> FitResult:
    """Print what the next seat would cost below an answer that is printed already.

    Args:
        call: what was asked.
        project: that fits.
        found: its answer.
        clock: the time for all.

    Returns:
        The answer, or a `fault` where the checker holds something against the layout of a near miss.
    """
    if not wants_near(call, project, found):
        return found
    from fitter.report.near import print_near
    from fitter.report.terminal import result

    sys.stdout.flush()  # the answer does not wait
    told = looked_for(call, project, found, clock)
    if told.checked or told.next_seat is None:
        return replace(found, verdict=Verdict.FAULT, checked=told.checked) if told.checked else found
    stopped = "Stopped by you" if told.interrupted else "Time ran out"
    print_near(result(), project, told.next_seat, stopped)
    return replace(found, near=told.next_seat)
