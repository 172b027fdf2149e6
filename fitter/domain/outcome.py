"""What comes out of a fit: the verdict and everything that is told about it."""

from __future__ import annotations

from dataclasses import dataclass

from fitter.domain.findings import Finding
from fitter.domain.layout import Layout, Proof, Verdict
from fitter.domain.requirements import Requirement
from rooms.lengths import Length


@dataclass(frozen=True)
class Blocked:
    """A route that the room itself is too narrow for, with no furniture in it.

    Args:
        route: its name.
        asked: its width.
        clear: the widest that gets through, tolerance taken off.
        between: the two things that leave the gap.
    """

    route: str
    asked: Length
    clear: Length
    between: tuple[str, str]


@dataclass(frozen=True)
class FitResult:
    """A verdict and what belongs to it.

    Args:
        verdict: how the answer stands.
        layout: the best one, with the width found for each route; None when there is none.
        proofs: one for each objective that was reached, in order.
        clash: requirements that cannot hold together, in file order, when impossible.
        blocked: routes of the clash that the empty room is too narrow for.
        checked: what the checker holds against the layout; anything there makes the verdict `fault`.
        seconds: spent in the solver.
    """

    verdict: Verdict
    layout: Layout | None
    proofs: tuple[Proof, ...]
    clash: tuple[Requirement, ...] = ()
    blocked: tuple[Blocked, ...] = ()
    checked: tuple[Finding, ...] = ()
    seconds: float = 0.0
