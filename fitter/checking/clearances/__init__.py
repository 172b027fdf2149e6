"""What codes, standards and habit say about a layout that is right in itself: findings, no refusals.

A benchmark that is missed is a caution. It becomes an error, and a check that failed, where `wish.strict` names its
topic; one that is kept only by an exception is told in a note.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from fitter.checking.clearances import edges, ground, turning, ways
from fitter.checking.clearances.held import Held
from fitter.domain.findings import Finding
from fitter.domain.layout import Layout
from fitter.domain.project import Project

__all__ = ["clearances"]

_LOOKS: tuple[Callable[[Held], Iterator[Finding]], ...] = (
    ways.routes,
    ways.passing,
    turning.dead_end,
    turning.between_arms,
    ground.landings,
    edges.railings,
    edges.guards,
    edges.steps,
    ground.flames,
    ground.reach,
)
"""In the order of their topics."""


def clearances(project: Project, layout: Layout) -> tuple[Finding, ...]:
    """Hold a layout against the benchmarks of `fitter.domain.benchmarks`.

    Args:
        project: what was asked.
        layout: one that the checker accepts, with the width found for each route.

    Returns:
        Cautions, or errors where `wish.strict` asks for it, and notes; topic by topic.
    """
    held = Held(project, layout)
    return tuple(finding for look in _LOOKS for finding in look(held))
