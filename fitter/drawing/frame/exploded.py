"""The parts of a run moved apart and seen from above one corner, each with its mark."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import sqrt

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.wishes import Side
from fitter.domain.woodwork import Part, PartRole, Woodwork
from fitter.drawing.draft import Draft
from fitter.drawing.frame.ends import END_ROLES
from fitter.drawing.frame.facing import UP, Facing, members, stands_on
from fitter.drawing.frame.labels import names
from fitter.drawing.frame.picture import Paper, Picture, Scene, draw_wood
from fitter.drawing.frame.sight import Gaze, Seen, Sight, looked_at
from fitter.drawing.frame.solids import Solid, Spot3, cross, dot, minus, plus, solid_of, unit
from fitter.drawing.page import Pen
from fitter.drawing.view import View
from rooms.lengths import UNITS_PER_INCH

TRUE = sqrt(3 / 2)
"""An isometric picture enlarged by this shows lengths along the three axes to scale."""

# How far parts move, inches: forward, sideways from the middle of the run, up. Chosen by eye.
_ROLE = PartRole
_MOVES: dict[PartRole, tuple[float, float, float]] = {
    _ROLE.FOOT: (0.0, 0.0, -6.0),
    _ROLE.FRONT_RAIL: (22.0, 0.0, 0.0),
    _ROLE.BACK_RAIL: (-9.0, 0.0, 0.0),
    _ROLE.LEDGER: (0.0, 0.0, -4.0),
    _ROLE.SEAT_SLAT: (0.0, 0.0, 26.0),
    _ROLE.UPRIGHT: (-34.0, 0.0, 0.0),
    _ROLE.BOTTOM_RAIL: (-40.0, 0.0, 0.0),
    _ROLE.TOP_RAIL: (-40.0, 0.0, 6.0),
    _ROLE.BACK_SLAT: (-52.0, 0.0, 0.0),
    _ROLE.CORNER_BOARD: (10.0, 0.0, 30.0),
    _ROLE.TABLE_BEARER: (0.0, 0.0, 20.0),
    _ROLE.TABLE_BOARD: (0.0, 0.0, 28.0),
}
_CLEATS = (_ROLE.CLEAT, _ROLE.SHORT_CLEAT)
_INWARD = {_ROLE.CLEAT: 3.0, _ROLE.SHORT_CLEAT: 5.0}
_SHELF = (_ROLE.SHELF_LEG, _ROLE.SHELF_RAIL, _ROLE.SHELF_SLAT, _ROLE.ARM_BEARER, _ROLE.ARM_TIE, _ROLE.ARM_BOARD)
_LAID = (_ROLE.SHELF_SLAT, _ROLE.ARM_BOARD)
_OUTWARD = 26.0
_APART = 5.0  # pieces of an end from its middle, inches


@dataclass(frozen=True)
class Exploded:
    """A run to be shown in its parts.

    Args:
        project: with the unit.
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
        """From its front, from above, and from its free end, so that all three axes lie alike (isometric)."""
        free: Spot3 = (0.0, 1.0, 0.0)
        if self.facing.run.side is Side.MAIN:
            free = (-1.0, 0.0, 0.0) if self.layout.hand is Side.LEFT else (1.0, 0.0, 0.0)
        toward = unit(plus(plus(self.facing.front, free), UP))
        right = unit(cross(UP, toward))
        return Gaze(right, cross(toward, right))

    @property
    def numbers(self) -> tuple[int, ...]:
        """The parts that are shown."""
        return members(self.woodwork, self.facing.run.side)

    def drawn(self, denominator: int) -> Picture:
        """The picture at a scale."""
        view, draft = View(denominator, self.project.unit), Draft()
        scene = self.scene(view)
        draw_wood(draft, scene, Pen.MEDIUM)
        names(scene, lambda part: True).beside(draft)
        return Picture(tuple(draft.items), "")

    def scene(self, view: View) -> Scene:
        """What is seen of the parts once they are moved."""
        solids, sight, seen = self._seen
        return Scene(self.woodwork.parts, solids, sight, seen, Paper(view, TRUE))

    @cached_property
    def _seen(self) -> tuple[tuple[Solid, ...], Sight, tuple[Seen, ...]]:
        """The same at no scale yet."""
        return looked_at([solid_of(self.woodwork.parts[n], n, self.shift(n)) for n in self.numbers], self.gaze)

    def shift(self, number: int) -> Spot3:
        """By how much a part moves, in units."""
        part, front = self.woodwork.parts[number], self.facing.front
        along = cross(front, UP)
        forward, sideways, up = _MOVES.get(part.role, (0.0, 0.0, 0.0))
        if part.role in _CLEATS:
            aside = dot(minus(_centre(part), self._middle), front)
            forward -= _INWARD[part.role] * (1 if aside > 0 else -1)
        shift = plus(plus((0.0, 0.0, up), front, forward), along, sideways)
        if part.role in _SHELF or self._under(part, _SHELF):
            shift = plus(shift, self._of_shelf(part))
        elif part.role in END_ROLES or self._under(part, END_ROLES):
            shift = plus(shift, self._of_end(part))
        return _times(shift, UNITS_PER_INCH)

    @property
    def _middle(self) -> Spot3:
        corners = self.facing.run.deck.corners
        return (
            sum(x.units for x, _ in corners) / 4,
            sum(y.units for _, y in corners) / 4,
            float(self.woodwork.levels.deck.units),
        )

    def _under(self, part: Part, roles: Sequence[PartRole]) -> bool:
        return part.role is _ROLE.FOOT and any(
            stands_on(self.woodwork.parts[n], part) for n in self.numbers if self.woodwork.parts[n].role in roles
        )

    def _of_shelf(self, part: Part) -> Spot3:
        """Outward along the run, beyond the end; slats up from their rails."""
        along = cross(self.facing.front, UP)
        outward = 2 * _OUTWARD * _sign(dot(minus(_centre(part), self._middle), along))
        up = -_APART if part.role is _ROLE.FOOT else 2 * _APART if part.role in _LAID else 0.0
        return (along[0] * outward, along[1] * outward, up)

    def _of_end(self, part: Part) -> Spot3:
        """Outward along the run; a piece of an end also away from the middle of its end."""
        along = cross(self.facing.front, UP)
        aside = dot(minus(_centre(part), self._middle), along)
        outward = (along[0] * _sign(aside) * _OUTWARD, along[1] * _sign(aside) * _OUTWARD, 0.0)
        if part.role is _ROLE.FOOT:
            return plus(outward, UP, -_APART)
        mates = [
            _centre(self.woodwork.parts[n])
            for n in self.numbers
            if self.woodwork.parts[n].role in END_ROLES
            and _sign(dot(minus(_centre(self.woodwork.parts[n]), self._middle), along)) == _sign(aside)
        ]
        middle = _mean(mates)
        off = minus(_centre(part), middle)
        off = plus(off, along, -dot(off, along))
        away = max((UP, self.facing.front), key=lambda way: abs(dot(off, way)))
        return plus(outward, away, _APART * _sign(dot(off, away))) if dot(off, off) > 1 else outward


def _times(a: Spot3, times: float) -> Spot3:
    """A vector made longer."""
    return a[0] * times, a[1] * times, a[2] * times


def _sign(number: float) -> int:
    return 1 if number >= 0 else -1


def _centre(part: Part) -> Spot3:
    return _mean([(float(x), float(y), float(z)) for x, y, z in part.corners])


def _mean(spots: Sequence[Spot3]) -> Spot3:
    count = len(spots)
    return sum(s[0] for s in spots) / count, sum(s[1] for s in spots) / count, sum(s[2] for s in spots) / count
