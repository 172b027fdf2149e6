"""An inside post with other sizes in an arrangement that is kept: what is left of the notch, and what that takes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from shapely.geometry import Polygon

from fitter.checking import check_layout
from fitter.domain.frame import RailJoint, Section
from fitter.domain.layout import Layout, Side
from fitter.domain.project import Project
from fitter.domain.sections import NOMINAL, dressed
from fitter.domain.tradeoff import Bar, Ground, Step, fronted, ground, shrinking
from fitter.domain.wishes import DEFAULT_ORDER, CornerKind
from fitter.model import TimeUp, any_layout
from fitter.model.frames import Frame, frames
from fitter.model.resizing import resized
from fitter.project.wood import HOUSING_POST, THINNEST_POST
from fitter.workflow.costing import BoardCosts, LayoutBill, counted
from rooms.lengths import ZERO, Length

__all__ = ["steps_of"]

_PLACES = tuple(Fraction(n, 4) for n in (0, 4, 2, 1, 3))
"""Where a grown layout is tried within the ground that it had: from its one end to its other."""


def steps_of(project: Project, layout: Layout, limit: float | None = None) -> tuple[Step, ...]:
    """An inside post in an arrangement that is kept, with thinner and thicker posts, more ease and more overhang.

    All of it is exact arithmetic, and the checker tells whether it fits the room. The solver is asked only where
    nothing is left of the notch of the file's own post and the arrangement found no place: whether as many seats of
    that shape find one.

    Args:
        project: what is asked.
        layout: an arrangement with cushions in its corners.
        limit: seconds for each such question; None for no limit.
    """
    wished = replace(project, wish=replace(project.wish, corner=CornerKind.INSIDE_POST))
    inside = replace(layout, corner=CornerKind.INSIDE_POST)
    base = resized(wished, inside)
    if base is None:
        return ()
    case = _Case(wished, inside, ground(base.footprint), limit)
    found = [step for post in _posts(project) for step in case.steps(post)]
    return tuple(replace(step, front=front) for step, front in zip(found, fronted(found), strict=True))


def _posts(project: Project) -> Iterator[Section]:
    """The post of the file, then the square sections of the table that a file could name."""
    own, frame = project.frame.post, project.frame
    yield own
    least = HOUSING_POST if frame.carpentry.rail_joint is RailJoint.HOUSING else THINNEST_POST
    for name in NOMINAL:
        section = dressed(name, project.unit)
        square = section is not None and section.thickness == section.width != own.width
        if section is not None and square and section.width >= max(least, frame.rail.thickness):
            yield section


@dataclass(frozen=True)
class _Case:
    """What all steps have in common.

    Args:
        project: whose sizes are changed.
        inside: the arrangement, with inside posts.
        first: what it covers with the sizes of the file.
        limit: seconds for each question to the solver.
    """

    project: Project
    inside: Layout
    first: Ground
    limit: float | None

    @cached_property
    def frames(self) -> tuple[Frame, ...]:
        """Those of the room: they are the same whatever the sizes are."""
        return frames(self.project)

    @cached_property
    def room(self) -> Polygon:
        """The outline; what stands beyond it fits no better for its size in wood."""
        return Polygon([(point.x.units, point.y.units) for point in self.project.room.outline]).buffer(1.0)

    def steps(self, post: Section) -> Iterator[Step]:
        """With one post: as it is, then with more ease until no notch is left, then with more overhang."""
        own = replace(self.project, frame=replace(self.project.frame, post=post))
        start = resized(own, self.inside, within=self.frames)
        if start is None:
            return
        yield from self._step(own, ZERO)
        less = shrinking(_deepest(start), own.unit.imperial)
        for by in less:
            kinds = tuple(replace(kind, ease=kind.ease + 2 * by) for kind in own.cushions)
            yield from self._step(replace(own, cushions=kinds), 2 * by)
        # A frame that is carried in pieces has none.
        for by in less if own.frame.carry is None else ():
            frame = replace(own.frame, overhang=own.frame.overhang + by)
            yield from self._step(replace(own, frame=frame), ZERO)

    def _step(self, project: Project, more: Length) -> Iterator[Step]:
        """The arrangement at the sizes of a project; none where it cannot be laid out."""
        laid = resized(project, self.inside, within=self.frames)
        if laid is None:
            return
        now, notch = ground(laid.footprint), _deepest(laid)
        bar, placed = _forbidden(project, self.inside, notch), None
        if bar is not Bar.TIPS:
            placed = self._placed(project, laid)
        if bar is None and placed is None:
            asked = not notch and project.frame.post == self.project.frame.post
            bar = self._barred(project) if asked else Bar.ROOM
        yield Step(
            post=project.frame.post,
            more=more,
            overhang=project.frame.overhang,
            notch=notch,
            ground=now,
            longer=now.long - self.first.long,
            deeper=now.deep - self.first.deep,
            larger=now.area - self.first.area,
            gap=laid.gap,
            cents=None if placed is None else _cents(project, placed),
            bar=bar,
        )

    def _barred(self, project: Project) -> Bar:
        """Whether another arrangement of that shape with as many seats fits, where this one found no place."""
        kept = self.inside
        wish = replace(
            project.wish, shape=kept.shape, hand=kept.hand, least=kept.seats, most=kept.seats, prefer=DEFAULT_ORDER
        )
        try:
            return Bar.NONE if any_layout(replace(project, wish=wish), self.limit) is None else Bar.ELSEWHERE
        except TimeUp:
            return Bar.ROOM

    def _placed(self, project: Project, laid: Layout) -> Layout | None:
        """The arrangement where the checker accepts it, moved so that what it grew by lies at either end or between.

        It keeps its distance from the edge that it stands along. None where no such place was found. Whether its
        cushions may be cut is another matter.
        """
        freely = replace(project, cushions=tuple(replace(kind, may_notch=True) for kind in project.cushions))
        for dx, dy in dict.fromkeys(_shift(project, self.inside, laid, share) for share in _PLACES):
            moved = resized(project, self.inside, dx, dy, within=self.frames)
            if moved is not None and self._indoors(moved) and not check_layout(freely, moved):
                return moved
        return None

    def _indoors(self, layout: Layout) -> bool:
        """Whether it lies within the outline, quicker to tell than all that is checked."""
        rings = (layout.pose.outline(box) for box in layout.footprint)
        return all(self.room.contains(Polygon([(float(x), float(y)) for x, y in ring])) for ring in rings)


def _deepest(layout: Layout) -> Length:
    return max((module.notch.along_x for module in layout.modules if module.notch), default=ZERO)


def _forbidden(project: Project, layout: Layout, notch: Length) -> Bar | None:
    """What a file would not be allowed: an overhang of more than a third of a cushion, or a cut where none may be."""
    if any(3 * project.frame.overhang.units > min(size.units for size in kind.size[:2]) for kind in project.cushions):
        return Bar.TIPS
    used = {module.cushion for module in layout.corners}
    cut = notch and any(kind.name in used and not kind.may_notch for kind in project.cushions)
    return Bar.FOAM if cut else None


def _shift(project: Project, inside: Layout, laid: Layout, share: Fraction) -> tuple[Length, Length]:
    """How far the deck corner moves so that a share of what the footprint grew by lies at its low end."""

    def moved(across: bool) -> Length:
        kept = _edges(inside, across)[0] - _edges(laid, across)[0]
        other = _edges(inside, across)[1] - _edges(laid, across)[1]
        return Length(round(kept + share * (other - kept))).round_to(project.mark)

    if inside.pose.edge is None:
        return moved(False), moved(True)
    off = inside.off_edge - laid.off_edge
    if inside.pose.aligned is Side.MAIN:
        return moved(False), off
    # An arm along the edge: it moves along y, and stays as far off the edge as it was.
    return off if inside.pose.aligned is Side.RIGHT else -off, moved(True)


def _edges(layout: Layout, across: bool) -> tuple[int, int]:
    """From where to where it reaches along x, or across along y, in units."""
    if across:
        return min(box.y0.units for box in layout.footprint), max(box.y1.units for box in layout.footprint)
    return min(box.x0.units for box in layout.footprint), max(box.x1.units for box in layout.footprint)


def _cents(project: Project, layout: Layout) -> int | None:
    """What the boards cost that the layout decides on; None where posts or rails have no price."""
    costs = BoardCosts(project)
    if not {project.frame.post.name, project.frame.rail.name} <= set(costs.stocks):
        return None
    return LayoutBill(costs, layout).cost(*counted(project, layout))
