"""The end of a run, seen from outside along the run."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from fitter.domain.layout import End, Layout
from fitter.domain.project import Project
from fitter.domain.wishes import EndKind, Side
from fitter.domain.woodwork import Part, PartRole, Woodwork
from fitter.drawing.chains import FIRST
from fitter.drawing.draft import Draft
from fitter.drawing.frame.chaining import chain_at_left, chain_below
from fitter.drawing.frame.facing import UP, extent, span, stands_on
from fitter.drawing.frame.labels import names
from fitter.drawing.frame.picture import Paper, Picture, Scene, draw_wood
from fitter.drawing.frame.sight import Gaze, Seen, Sight, looked_at
from fitter.drawing.frame.solids import Solid, Spot3, cross, solid_of
from fitter.drawing.page import Line, Pen, Role
from fitter.drawing.view import View
from rooms.lengths import ZERO, Length

END_ROLES = (PartRole.ARM_PIECE, PartRole.ARM_POST, PartRole.ARM_RAIL, PartRole.LEG, PartRole.END_RAIL)
_BEYOND = 5.0


@dataclass(frozen=True)
class EndView:
    """Ends that are made alike, one of which is drawn.

    Args:
        project: with the unit that lengths are written in.
        layout: that the ends are part of.
        woodwork: its frame.
        ends: those that are alike; the first one is drawn.
    """

    project: Project
    layout: Layout
    woodwork: Woodwork
    ends: tuple[End, ...]

    @property
    def gaze(self) -> Gaze:
        """From outside along the run."""
        outward = outside(self.layout, self.ends[0])
        return Gaze(cross(UP, outward), UP)

    @property
    def parts(self) -> list[Part]:
        """The parts that are drawn."""
        return [self.woodwork.parts[solid.number] for solid in self._seen[0]]

    @cached_property
    def _seen(self) -> tuple[tuple[Solid, ...], Sight, tuple[Seen, ...]]:
        numbers = end_parts(self.woodwork, self.ends[0])
        return looked_at([solid_of(self.woodwork.parts[n], n) for n in numbers], self.gaze)

    def drawn(self, denominator: int) -> Picture:
        """The picture at a scale."""
        view, draft = View(denominator, self.project.unit), Draft()
        scene = Scene(self.woodwork.parts, *self._seen, Paper(view))
        draw_wood(draft, scene, Pen.MEDIUM)
        right, wood = self.gaze.right, [part for part in self.parts if part.role is not PartRole.FOOT]
        low, high = extent(self.parts, right)
        draft.add(Line(((view.of(low) - _BEYOND, 0.0), (view.of(high) + _BEYOND, 0.0)), Pen.WIDE, Role.FLOOR))
        left = names(scene, lambda part: True).on_wood(draft)
        top = extent(wood, UP)[1]
        first = FIRST - view.of(min(ZERO, extent(self.parts, UP)[0]))
        for places in dict.fromkeys((_faces(wood, right), (low, high))):
            first = chain_below(draft, places, 0.0, first, view)
        first = FIRST
        for places in dict.fromkeys((tuple(sorted({ZERO, *_faces(wood, UP)})), (ZERO, top))):
            first = chain_at_left(draft, places, view.of(low), first, view)
        left.beside(draft)
        return Picture(tuple(draft.items), f"{_name(self.ends)} from outside".capitalize())


def _faces(parts: Sequence[Part], way: Spot3) -> tuple[Length, ...]:
    """Outer faces of parts together, and inner faces of those that lie at their rims."""
    low, high = extent(parts, way)
    spans = [span(part, way) for part in parts]
    first = min((end for start, end in spans if start == low and end != high), default=low)
    last = max((start for start, end in spans if end == high and start != low), default=high)
    return tuple(sorted({low, first, last, high}))


def outside(layout: Layout, end: End) -> Spot3:
    """The way out of a run at its end."""
    if end.run is not Side.MAIN:
        return (0.0, 1.0, 0.0)
    run = next(run for run in layout.runs if run.side is end.run)
    return (-1.0, 0.0, 0.0) if end.box.x0 < run.deck.x0 else (1.0, 0.0, 0.0)


def end_parts(woodwork: Woodwork, end: End) -> tuple[int, ...]:
    """The parts of an end with the feet under it."""
    own = [
        n
        for n, part in enumerate(woodwork.parts)
        if part.run is end.run and part.role in END_ROLES and _within(part, end)
    ]
    feet = [
        n
        for n, part in enumerate(woodwork.parts)
        if part.role is PartRole.FOOT and any(stands_on(woodwork.parts[m], part) for m in own)
    ]
    return tuple(sorted((*own, *feet)))


def _within(part: Part, end: End) -> bool:
    x, y = (span(part, way) for way in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))
    return x[0] < end.box.x1 and end.box.x0 < x[1] and y[0] < end.box.y1 and end.box.y0 < y[1]


def end_views(project: Project, layout: Layout, woodwork: Woodwork) -> tuple[EndView, ...]:
    """A view of each different end."""
    alike: dict[tuple[object, ...], list[End]] = {}
    for end in layout.ends:
        parts = [woodwork.parts[n] for n in end_parts(woodwork, end)]
        if parts:
            told = tuple(sorted((str(p.role), p.section.name, p.length, *span(p, UP)) for p in parts))
            alike.setdefault((end.kind, told), []).append(end)
    return tuple(EndView(project, layout, woodwork, tuple(ends)) for ends in alike.values())


def _name(ends: Sequence[End]) -> str:
    """What ends are called that are made alike."""
    kind = "armed" if ends[0].kind is EndKind.ARMED else "open"
    return f"{kind} end at either hand" if len(ends) > 1 else f"{kind} end at the {ends[0].hand} hand"
