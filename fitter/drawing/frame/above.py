"""The deck of a run from above: how its slats are spread, and what they lie on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from math import dist

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.woodwork import Part, PartRole, Woodwork
from fitter.drawing.chains import FIRST
from fitter.drawing.draft import Draft
from fitter.drawing.frame.chaining import begun, chain_below
from fitter.drawing.frame.facing import UP, Facing, extent, having, members, run_name, span
from fitter.drawing.frame.labels import names
from fitter.drawing.frame.picture import Paper, Picture, Scene, draw_wood
from fitter.drawing.frame.sight import Gaze, Seen, Sight, looked_at
from fitter.drawing.frame.solids import Solid, cross, solid_of
from fitter.drawing.frame.telling import field, slats_told
from fitter.drawing.page import Pen, Segment
from fitter.drawing.view import View
from rooms.lengths import Length

_BELOW = (PartRole.CLEAT, PartRole.SHORT_CLEAT)
_NAMED = (PartRole.SEAT_SLAT, PartRole.TABLE_BOARD, PartRole.SHELF_SLAT, PartRole.ARM_BOARD, *_BELOW)


@dataclass(frozen=True)
class FromAbove:
    """A run to be drawn from above, its front at the foot of the picture.

    Args:
        project: with the unit that lengths are written in.
        layout: that the run is part of.
        woodwork: its frame.
        facing: the run.
    """

    project: Project
    layout: Layout
    woodwork: Woodwork
    facing: Facing

    @property
    def gaze(self) -> Gaze:
        """From above."""
        back = (-self.facing.front[0], -self.facing.front[1], 0.0)
        return Gaze(cross(back, UP), back)

    @property
    def parts(self) -> list[Part]:
        """The parts that are drawn."""
        return [self.woodwork.parts[solid.number] for solid in self._seen[0]]

    @cached_property
    def _seen(self) -> tuple[tuple[Solid, ...], Sight, tuple[Seen, ...]]:
        numbers = members(self.woodwork, self.facing.run.side)
        return looked_at([solid_of(self.woodwork.parts[n], n) for n in numbers], self.gaze)

    def scene(self, view: View) -> Scene:
        """What is seen of the run."""
        return Scene(self.woodwork.parts, *self._seen, Paper(view))

    def drawn(self, denominator: int) -> Picture:
        """The picture at a scale."""
        view, draft = View(denominator, self.project.unit), Draft()
        scene, side = self.scene(view), self.facing.run.side
        draw_wood(draft, scene, Pen.MEDIUM, _below)
        left = names(scene, lambda part: part.role in _NAMED, _below).on_wood(draft)
        first, foot = FIRST, view.of(extent(self.parts, self.gaze.up)[0])
        for places in self._places():
            first = chain_below(draft, places, foot, first, view)
        left.beside(draft)
        name = f"{run_name(self.layout, side)} from above".capitalize()
        return Picture(tuple(draft.items), name, slats_told(self.woodwork, side, PartRole.SEAT_SLAT, view))

    def _places(self) -> list[tuple[Length, ...]]:
        """The first slats that are seen at the left, then the whole space that slats are spread over there."""
        side = self.facing.run.side
        slats = sorted({span(part, self.gaze.right) for part in having(self.parts, PartRole.SEAT_SLAT)})
        spreads = [s for s in self.woodwork.spreads if s.run is side and s.role is PartRole.SEAT_SLAT]
        space = field(slats, spreads)
        seen = [slat for slat in slats if slat in self._plain]
        return [begun(seen, *space), space] if space and seen else []

    @cached_property
    def _plain(self) -> set[tuple[Length, Length]]:
        """Where slats lie of which more is seen than a rim: no table covers them."""
        bare = set()
        for seen in self._seen[2]:
            part = self.woodwork.parts[seen.number]
            if part.role is PartRole.SEAT_SLAT and _length(seen.visible) > _length(seen.hidden):
                bare.add(span(part, self.gaze.right))
        return bare


def _length(segments: Iterable[Segment]) -> float:
    return sum(dist(a, b) for a, b in segments)


def _below(part: Part) -> bool:
    """Whether a part carries slats and is drawn through them."""
    return part.role in _BELOW
