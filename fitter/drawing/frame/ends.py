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
from fitter.drawing.frame.facing import UP, extent, having, span, stands_on
from fitter.drawing.frame.labels import names
from fitter.drawing.frame.picture import Paper, Picture, Scene, draw_wood
from fitter.drawing.frame.sight import Gaze, Seen, Sight, looked_at
from fitter.drawing.frame.solids import Solid, Spot3, cross, solid_of
from fitter.drawing.page import Line, Pen, Role, Spot
from fitter.drawing.view import View
from rooms.lengths import Length

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
        floor = self._floor(view)
        spots = ((view.of(low) - _BEYOND, floor[0][1]), *floor, (view.of(high) + _BEYOND, floor[-1][1]))
        draft.add(Line(spots, Pen.WIDE, Role.FLOOR))
        left = names(scene, lambda part: True).on_wood(draft)
        top, ground = extent(wood, UP)[1], extent(self.parts, UP)[0]
        first = FIRST - view.of(ground)
        for places in dict.fromkeys((_faces(wood, right), (low, high))):
            first = chain_below(draft, places, 0.0, first, view)
        first = FIRST
        for places in dict.fromkeys((tuple(sorted({ground, *_faces(wood, UP)})), (ground, top))):
            first = chain_at_left(draft, places, view.of(low), first, view)
        left.beside(draft)
        return Picture(tuple(draft.items), f"{_name(self.ends)} from outside".capitalize())

    def _floor(self, view: View) -> list[Spot]:
        """The middles of the feet on the floor, from left to right."""
        feet = having(self.parts, PartRole.FOOT) or self.parts
        spots = [(sum(view.of(place) for place in span(foot, self.gaze.right)) / 2, foot) for foot in feet]
        return [(x, view.of(span(foot, UP)[0])) for x, foot in sorted(spots, key=lambda spot: spot[0])]


def _faces(parts: Sequence[Part], way: Spot3) -> tuple[Length, ...]:
    """Where parts begin and end along a direction, but for those that reach from end to end."""
    whole = extent(parts, way)
    spans = [ends for part in parts if (ends := span(part, way)) != whole]
    return tuple(sorted({*whole, *(place for ends in spans for place in ends)}))


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
    """Whether a part stands at that end of its run."""
    if end.run is not Side.MAIN:
        return True
    low, high = span(part, (1.0, 0.0, 0.0))
    return low < end.box.x1 and end.box.x0 < high


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
