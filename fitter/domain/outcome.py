"""What comes out of a fit: the verdict and everything that is told about it."""

from __future__ import annotations

from dataclasses import dataclass

from fitter.domain.findings import Finding, Severity
from fitter.domain.layout import Face, Layout, Proof, Side, Verdict
from fitter.domain.near import NextSeat
from fitter.domain.requirements import Requirement
from fitter.domain.why import Why
from fitter.domain.woodwork import Woodwork
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
class MovedPosts:
    """Posts of one line of rails that stand where boards cost less.

    Args:
        run: the run.
        face: front or back.
        lines: module lines that carry a post.
        usual: those that would if boards cost nothing.
    """

    run: Side
    face: Face
    lines: tuple[int, ...]
    usual: tuple[int, ...]


@dataclass(frozen=True)
class Boards:
    """What the boards cost that the layout decides on.

    Args:
        cost: in cents.
        waste: length of those boards that becomes neither a part nor a useful offcut.
        scope: what wood they cover, in words.
        usual: what they would cost with posts where they would stand if boards cost nothing, in cents.
        moved: the posts that make the difference.
    """

    cost: int
    waste: Length
    scope: str
    usual: int
    moved: tuple[MovedPosts, ...] = ()


@dataclass(frozen=True)
class LayoutResult:
    """One layout of an answer, and how it stands.

    Args:
        rank: 1 for the best one.
        verdict: proven: nothing is better that differs from the layouts before it; found: time ran out.
        layout: with the width found for each route.
        proofs: one for each objective that was reached, in order.
        boards: what its boards cost; None where none has a price, or money was not reached.
        findings: what codes, standards and habit say of it; errors only where `wish.strict` asks for them.
    """

    rank: int
    verdict: Verdict
    layout: Layout
    proofs: tuple[Proof, ...] = ()
    boards: Boards | None = None
    findings: tuple[Finding, ...] = ()

    @property
    def failed(self) -> tuple[Finding, ...]:
        """Benchmarks that the file asks for and that this layout misses."""
        return tuple(finding for finding in self.findings if finding.severity is Severity.ERROR)


@dataclass(frozen=True)
class FitResult:
    """A verdict and what belongs to it.

    Args:
        verdict: how the answer stands.
        layouts: best first; none when nothing was found.
        bounds: without a layout: what none can exceed, as far as that is known (each value is that of no seats at all).
        clash: requirements that cannot hold together, in file order, when impossible.
        blocked: routes of the clash that the empty room is too narrow for.
        checked: what the checker holds against a layout; anything there makes the verdict `fault`.
        seconds: spent in the solver.
        interrupted: whether the user stopped the search before it was done.
        exhausted: whether it is proven that no further layout differs enough from those given.
        why: when impossible, why, as far as that was worked out.
        near: what one more seat than the best layout's would cost; None where that was not looked for.
    """

    verdict: Verdict
    layouts: tuple[LayoutResult, ...] = ()
    bounds: tuple[Proof, ...] = ()
    clash: tuple[Requirement, ...] = ()
    blocked: tuple[Blocked, ...] = ()
    checked: tuple[Finding, ...] = ()
    seconds: float = 0.0
    interrupted: bool = False
    exhausted: bool = False
    why: Why | None = None
    near: NextSeat | None = None

    @property
    def refused(self) -> bool:
        """Whether there are layouts, and each misses a benchmark that the file asks for."""
        return bool(self.layouts) and all(shown.failed for shown in self.layouts)

    @property
    def layout(self) -> Layout | None:
        """The best layout; None when there is none."""
        return self.layouts[0].layout if self.layouts else None

    @property
    def proofs(self) -> tuple[Proof, ...]:
        """Of the best layout; without one, the bounds."""
        return self.layouts[0].proofs if self.layouts else self.bounds


@dataclass(frozen=True)
class FrameResult:
    """The frame of one layout of an answer.

    Args:
        fit: the answer.
        shown: the layout that is framed; None where the answer has none of the rank that was asked for.
        rank: that was asked for.
        woodwork: its frame; None without a layout, or where the layout itself is a fault.
        checked: what the proof holds against the frame; anything there makes the verdict `fault`.
    """

    fit: FitResult
    shown: LayoutResult | None = None
    rank: int = 1
    woodwork: Woodwork | None = None
    checked: tuple[Finding, ...] = ()

    @property
    def failed(self) -> tuple[Finding, ...]:
        """Benchmarks that the file asks for and that the layout misses."""
        return self.shown.failed if self.shown is not None else ()

    @property
    def verdict(self) -> Verdict:
        """How the layout stands whose frame this is; without one, how the answer stands."""
        if self.checked or self.fit.verdict is Verdict.FAULT:
            return Verdict.FAULT
        if self.shown is not None:
            return self.shown.verdict
        if not self.fit.layouts:
            return self.fit.verdict
        # There are layouts, but none of this rank.
        return Verdict.IMPOSSIBLE if self.fit.exhausted else Verdict.UNKNOWN
