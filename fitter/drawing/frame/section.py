"""A section through seat and back of a run: what is cut, what lies beyond, the cushions, heights and depths."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import cos, radians, sin, tan

from shapely.geometry import Polygon
from shapely.ops import unary_union

from fitter.domain.cushions import Cushion
from fitter.domain.layout import Layout, Run
from fitter.domain.project import Project
from fitter.domain.woodwork import Part, PartRole, Woodwork
from fitter.drawing.chains import FIRST
from fitter.drawing.draft import Draft
from fitter.drawing.frame.beside import point_out
from fitter.drawing.frame.chaining import chain_at_left, chain_below
from fitter.drawing.frame.facing import UP, Facing, extent, facing, having, members, run_name, span
from fitter.drawing.frame.flags import Level, draw_levels
from fitter.drawing.frame.picture import Paper, Picture, Scene, draw_wood
from fitter.drawing.frame.sight import Seen, Sight, looked_at
from fitter.drawing.frame.solids import Plane, Solid, cuts, dot, sawn, solid_of
from fitter.drawing.page import SMALL, Area, Dash, Item, Line, Pen, Role, Spot, Text
from fitter.drawing.texts import within
from fitter.drawing.view import View, hatching, ring_of
from rooms.lengths import ZERO, Length

_STANDING = (
    PartRole.UPRIGHT,
    PartRole.SUPPORT_POST,
    PartRole.BACK_POST,
    PartRole.LEG,
    PartRole.INNER_POST,
    PartRole.CORNER_POST,
    PartRole.CORNER_BOARD,
)
_BEYOND = 5.0
_ROUND = 1.5  # of a cushion's rim on paper, mm
_FLAT = 0.05  # mm2; smaller faces of a saw cut are not drawn


@dataclass(frozen=True)
class Section:
    """A run to be cut across.

    Args:
        project: with the cushions.
        layout: that the run is part of.
        woodwork: its frame.
        runs: those that look alike here; the first one is cut.
    """

    project: Project
    layout: Layout
    woodwork: Woodwork
    runs: tuple[Run, ...]

    @property
    def facing(self) -> Facing:
        """The run that is cut."""
        return facing(self.runs[0])

    @property
    def cushion(self) -> Cushion:
        """The kind that lies on it."""
        return next(kind for kind in self.project.cushions if kind.name == self.runs[0].cushion)

    @property
    def parts(self) -> list[Part]:
        """The parts that may be cut or lie beyond."""
        return [self.woodwork.parts[n] for n in members(self.woodwork, self.runs[0].side)]

    def plane(self) -> Plane:
        """Where it is cut: through a seat slat near the middle of a bay, and through a back slat if there is one."""
        toward = self.facing.from_its_end.toward
        places = sorted(_middle(span(part, toward)) for part in having(self.parts, PartRole.SEAT_SLAT))
        rails = sorted(
            (span(part, toward) for part in having(self.parts, PartRole.FRONT_RAIL)), key=lambda ends: ends[0] - ends[1]
        )
        aim = _middle(rails[0]) if rails else places[len(places) // 2]
        return Plane(toward, float(min(places or [aim], key=lambda place: self._cost(place, aim)).units))

    def _cost(self, place: Length, aim: Length) -> tuple[bool, bool, Length]:
        """What speaks against a place: something that stands there, no back slat, far from the middle."""

        def through(*roles: PartRole) -> bool:
            return any(low <= place <= high for low, high in self._spans(*roles))

        missed = bool(having(self.parts, PartRole.BACK_SLAT)) and not through(PartRole.BACK_SLAT)
        return through(*_STANDING), missed, abs(place - aim)

    def _spans(self, *roles: PartRole) -> Iterator[tuple[Length, Length]]:
        toward = self.facing.from_its_end.toward
        return (span(part, toward) for part in having(self.parts, *roles))

    def drawn(self, denominator: int) -> Picture:
        """The picture at a scale."""
        view, draft = View(denominator, self.project.unit), Draft()
        paper, plane = Paper(view), self.plane()
        whole, rest, sight, seen = self._seen
        scene = Scene(self.woodwork.parts, rest, sight, seen, paper)
        faces = [(solid.number, shape) for solid in whole if (shape := self._face(solid, plane, paper)) is not None]
        draw_wood(draft, scene, Pen.FINE)
        for number, shape in faces:
            draft.add(*_cut(shape, across=abs(_grain(self.woodwork.parts[number], plane)) > 0.7))
        self._cushions(draft, view)
        self._ground(draft, view, scene)
        self._measures(draft, view, scene)
        for mark, shapes in _by_mark(self.woodwork.parts, faces).items():
            point_out(draft, mark, [_inner(shape) for shape in shapes])
        self._lean(draft, view)
        *first, last = (f"the {run_name(self.layout, run.side)}" for run in self.runs)
        names = f"{', '.join(first)} and {last}" if first else last
        return Picture(tuple(draft.items), f"Section of {names}")

    @cached_property
    def _seen(self) -> tuple[tuple[Solid, ...], tuple[Solid, ...], Sight, tuple[Seen, ...]]:
        """Whole parts, what the cut leaves of them, and what is seen of that, at no scale yet."""
        plane = self.plane()
        whole = tuple(solid_of(self.woodwork.parts[n], n) for n in members(self.woodwork, self.runs[0].side))
        rest = [left for solid in whole if (left := sawn(solid, plane))]
        return (whole, *looked_at(rest, self.facing.from_its_end))

    def _face(self, solid: Solid, plane: Plane, paper: Paper) -> Polygon | None:
        gaze = self.facing.from_its_end
        shapes = [Polygon([paper.at(gaze.at(spot)) for spot in cap]) for cap in cuts(solid, plane)]
        whole = unary_union(shapes)
        return whole if isinstance(whole, Polygon) and whole.area > _FLAT else None

    def _across(self, view: View) -> float:
        """Where the back line lies in the picture, mm."""
        front = self.facing.front
        return -min(view.of(_along(front, x, y)) for x, y in self.runs[0].deck.corners)

    def _cushions(self, draft: Draft, view: View) -> None:
        """The seat cushion on the deck; the back cushion on it, leaning with the back."""
        levels, back = self.woodwork.levels, self._across(view)
        wide, deep, _ = self.cushion.size
        depth = wide if self.runs[0].turned else deep
        high, behind = view.of(levels.seat - levels.deck), back - view.of(self.layout.gap)
        seat = _ring((behind, view.of(levels.deck)), (-1.0, 0.0), view.of(depth), high)
        self._soft(draft, seat, "seat cushion")
        loose = self.cushion.back
        if loose is not None:
            lean = radians(float(self.project.frame.carpentry.lean))
            rise = view.of(levels.seat - levels.back_bottom)
            corner = (back + rise * tan(lean), view.of(levels.seat))
            way = (-cos(lean), sin(lean))
            self._soft(draft, _ring(corner, way, view.of(loose.thickness), view.of(loose.height)), "back cushion")

    def _soft(self, draft: Draft, ring: tuple[Spot, ...], name: str) -> None:
        shape = Polygon(ring)
        round_ = shape.buffer(-_ROUND, join_style="mitre").buffer(_ROUND, quad_segs=4)
        shape = round_ if isinstance(round_, Polygon) and not round_.is_empty else shape
        draft.add(Area(ring_of(shape), None, Role.CUSHION, Pen.FINE, Dash.LONG))
        middle = shape.centroid
        upright = Text((middle.x + SMALL / 2, middle.y), name, SMALL, 90.0, 0.5)
        if draft.put(within(name, ring_of(shape))) is None and shape.contains(Polygon(upright.box)):
            draft.put([upright])

    def _ground(self, draft: Draft, view: View, scene: Scene) -> None:
        low, high = (view.of(place) for place in extent(_drawn(scene), self.facing.from_its_end.right))
        # Where the floor slopes it lies lower here than where the heights are counted from.
        pen, dash = (Pen.FINE, Dash.CENTRE) if self.woodwork.fall else (Pen.WIDE, Dash.SOLID)
        draft.add(Line(((low - _BEYOND, 0.0), (high + _BEYOND, 0.0)), pen, Role.FLOOR, dash))

    def _measures(self, draft: Draft, view: View, scene: Scene) -> None:
        """Depths below, heights at the left and as flags at the right."""
        right = self.facing.from_its_end.right
        low, high = extent(_drawn(scene), right)
        deck = sorted(-_along(self.facing.front, x, y) for x, y in self.runs[0].deck.corners)
        rails = having(_drawn(scene), PartRole.FRONT_RAIL, PartRole.BACK_RAIL)
        inner = [place for rail in rails for place in span(rail, right)]
        bottom = view.of(min(ZERO, extent(_drawn(scene), UP)[0]))
        first = FIRST - bottom
        for places in dict.fromkeys(
            (tuple(sorted({deck[0], deck[-1], *inner})), tuple(sorted({low, deck[0], deck[-1], high})), (low, high))
        ):
            first = chain_below(draft, places, 0.0, first, view)
        levels = self.woodwork.levels
        heights = sorted({ZERO, levels.foot, levels.rail_bottom, levels.deck, levels.seat})
        cushions = min(x for item in draft.items if isinstance(item, Area) for x, _ in item.ring)
        chain_at_left(draft, heights, view.of(low), FIRST + max(0.0, view.of(low) - cushions), view)
        draw_levels(draft, self._levels(), view.of(high), view)

    def _levels(self) -> list[Level]:
        levels = self.woodwork.levels
        return [
            Level("highest floor" if self.woodwork.fall else "floor", ZERO),
            Level("rail bottom", levels.rail_bottom),
            Level("top of cleats", levels.deck - self.project.frame.carpentry.seat_slat.thickness),
            Level("deck", levels.deck),
            Level("seat", levels.seat),
            Level("sat on", levels.sat_on),
            Level("back bottom", levels.back_bottom),
            Level("back top", levels.back_top),
        ]

    def _lean(self, draft: Draft, view: View) -> None:
        """The angle of the back with an upright line."""
        lean, levels = self.project.frame.carpentry.lean, self.woodwork.levels
        if not lean:
            return
        back, low, high = self._across(view), view.of(levels.back_bottom), view.of(levels.back_top)
        draft.add(Line(((back, low), (back, high)), Pen.FINE, Role.LEVEL, Dash.CENTRE))
        turn = radians(float(lean))
        spots = [(back + share * (high - low) * tan(turn) / 2, low + share * (high - low)) for share in (0.9, 0.8, 0.7)]
        point_out(draft, f"lean {float(lean):g}°", spots)


def sections(project: Project, layout: Layout, woodwork: Woodwork) -> tuple[Section, ...]:
    """A section of each different run."""
    alike: dict[tuple[object, ...], list[Run]] = {}
    for run in layout.runs:
        alike.setdefault(_profile(woodwork, run), []).append(run)
    return tuple(Section(project, layout, woodwork, tuple(runs)) for runs in alike.values())


def _profile(woodwork: Woodwork, run: Run) -> tuple[object, ...]:
    """What the section of a run depends on: its deck, its cushion, and the sizes and heights of its parts across."""
    front = facing(run).front
    edge = min(_along(front, x, y) for x, y in run.deck.corners)
    depth = max(_along(front, x, y) for x, y in run.deck.corners) - edge
    roles = (PartRole.FRONT_RAIL, PartRole.BACK_RAIL, PartRole.CLEAT, PartRole.BACK_SLAT, PartRole.TOP_RAIL)
    places = {
        (part.role, *(place - edge for place in span(part, front)), *span(part, UP))
        for part in having(woodwork.parts, *roles)
        if part.run is run.side and abs(dot(_axis(part), front)) < 0.5
    }
    return depth, run.cushion, run.turned, tuple(sorted(places))


def _axis(part: Part) -> tuple[float, float, float]:
    return float(part.along[0]), float(part.along[1]), float(part.along[2])


def _grain(part: Part, plane: Plane) -> float:
    return dot(_axis(part), plane.outward)


def _along(front: tuple[float, float, float], x: Length, y: Length) -> Length:
    """How far a place of the plan lies along the way the seats look."""
    return Length(int(front[0]) * x.units + int(front[1]) * y.units)


def _middle(ends: tuple[Length, Length]) -> Length:
    return Length((ends[0] + ends[1]).units // 2)


def _drawn(scene: Scene) -> list[Part]:
    return [scene.parts[solid.number] for solid in scene.solids]


def _by_mark(parts: Sequence[Part], faces: Sequence[tuple[int, Polygon]]) -> dict[str, list[Polygon]]:
    marks: dict[str, list[Polygon]] = {}
    for number, shape in faces:
        marks.setdefault(parts[number].mark, []).append(shape)
    return marks


def _inner(shape: Polygon) -> Spot:
    spot = shape.representative_point()
    return spot.x, spot.y


def _ring(corner: Spot, way: Spot, long: float, high: float) -> tuple[Spot, ...]:
    """A rectangle from its lower corner at the back, toward the front along `way` and up at right angles to it."""
    up = (way[1], -way[0])
    (x, y), (dx, dy), (ux, uy) = corner, way, up
    return (
        (x, y),
        (x + long * dx, y + long * dy),
        (x + long * dx + high * ux, y + long * dy + high * uy),
        (x + high * ux, y + high * uy),
    )


def _cut(shape: Polygon, *, across: bool) -> Iterator[Item]:
    """A cut face: crossed diagonals across the grain, hatching along it (common practice), a wide outline."""
    ring = ring_of(shape)
    yield Area(ring, 1.0, Role.CUT, Pen.WIDE)
    if across and len(ring) == 4:
        yield from (Line((ring[i], ring[i + 2]), Pen.FINE, Role.HATCH) for i in (0, 1))
    else:
        yield from (Line(stroke, Pen.FINE, Role.HATCH) for stroke in hatching(shape, 1.2))
