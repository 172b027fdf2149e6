"""A run seen square from its front or its back, with its lengths and heights."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from fitter.domain.layout import Face, Layout
from fitter.domain.project import Project
from fitter.domain.wishes import EndKind, Side
from fitter.domain.woodwork import Part, PartRole, Woodwork
from fitter.drawing.chains import FIRST
from fitter.drawing.draft import Draft
from fitter.drawing.frame.beside import point_out
from fitter.drawing.frame.chaining import begun, chain_above, chain_at_left, chain_below
from fitter.drawing.frame.facing import UP, Facing, extent, having, members, run_name, span
from fitter.drawing.frame.flags import Level, draw_levels
from fitter.drawing.frame.labels import names
from fitter.drawing.frame.picture import Paper, Picture, Scene, draw_wood
from fitter.drawing.frame.sight import Gaze, Seen, Sight, looked_at
from fitter.drawing.frame.solids import Solid, solid_of
from fitter.drawing.frame.telling import slats_told
from fitter.drawing.page import Line, Pen, Role
from fitter.drawing.view import View
from rooms.lengths import ZERO, Length

_BEYOND = 5.0  # the floor is drawn so far beyond the wood, mm
_CLEATS = (PartRole.CLEAT, PartRole.SHORT_CLEAT, PartRole.LEDGER)
_FRONT_LINE = (PartRole.SUPPORT_POST, PartRole.INNER_POST, PartRole.LEG, *_CLEATS)
_BACK_LINE = (PartRole.BACK_POST, PartRole.CORNER_POST, PartRole.BACK_RAIL, PartRole.LEG, *_CLEATS)
_NOT_FROM_FRONT = (PartRole.BACK_SLAT, PartRole.UPRIGHT, PartRole.BACK_RAIL, PartRole.BACK_POST, PartRole.SEAT_SLAT)
_NOT_FROM_BACK = (
    PartRole.FRONT_RAIL,
    PartRole.SUPPORT_POST,
    PartRole.INNER_POST,
    PartRole.SEAT_SLAT,
    PartRole.BOTTOM_RAIL,
    PartRole.TOP_RAIL,
    PartRole.FOOT,
    PartRole.CROSS_RAIL,
    PartRole.ARM_PIECE,
    PartRole.CORNER_BOARD,
)


@dataclass(frozen=True)
class Elevation:
    """A run to be drawn from one side.

    Args:
        project: with the unit that lengths are written in.
        layout: that the run is part of.
        woodwork: its frame.
        facing: the run.
        face: front or back.
    """

    project: Project
    layout: Layout
    woodwork: Woodwork
    facing: Facing
    face: Face

    @property
    def side(self) -> Side:
        """Which run."""
        return self.facing.run.side

    @property
    def gaze(self) -> Gaze:
        """From where it is seen."""
        return self.facing.from_front if self.face is Face.FRONT else self.facing.from_back

    @property
    def numbers(self) -> tuple[int, ...]:
        """The parts that are drawn."""
        return members(self.woodwork, self.side)

    @property
    def parts(self) -> list[Part]:
        """The same as parts."""
        return [self.woodwork.parts[n] for n in self.numbers]

    def drawn(self, denominator: int) -> Picture:
        """The picture at a scale."""
        view, draft = View(denominator, self.project.unit), Draft()
        scene = self.scene(view)
        draw_wood(draft, scene, Pen.MEDIUM, self._dashed)
        _floor(draft, self, view)
        left = names(scene, self._body, self._dashed).on_wood(draft)
        _lengths(draft, self, view)
        _heights(draft, self, view)
        _drops(draft, self, view)
        left.beside(draft)
        name = f"{run_name(self.layout, self.side)} from the {self.face}".capitalize()
        return Picture(tuple(draft.items), name, self._notes(view))

    def scene(self, view: View) -> Scene:
        """What is seen of the run."""
        solids, sight, seen = self._seen
        return Scene(self.woodwork.parts, solids, sight, seen, Paper(view))

    @cached_property
    def _seen(self) -> tuple[tuple[Solid, ...], Sight, tuple[Seen, ...]]:
        """The same at no scale yet."""
        return looked_at([solid_of(self.woodwork.parts[n], n) for n in self.numbers], self.gaze)

    def _dashed(self, part: Part) -> bool:
        """Whether hidden edges help: what stands or hangs in the line of rails that is looked at."""
        if part.role not in (_FRONT_LINE if self.face is Face.FRONT else _BACK_LINE):
            return False
        deck = self.facing.run.deck
        front = self.facing.front
        depth = [front[0] * x.units + front[1] * y.units for x, y in deck.corners]
        low, high = (front_at.units for front_at in span(part, front))
        return ((low + high) / 2 > (min(depth) + max(depth)) / 2) is (self.face is Face.FRONT)

    def _body(self, part: Part) -> bool:
        """Whether a part is named from this side."""
        if part.role in (_NOT_FROM_FRONT if self.face is Face.FRONT else _NOT_FROM_BACK):
            return False
        if part.role is PartRole.FOOT and self.woodwork.fall:
            return False  # named with its height
        return part.role not in _CLEATS or self._dashed(part)

    def _notes(self, view: View) -> tuple[str, ...]:
        if self.face is Face.FRONT:
            return ()
        return slats_told(self.woodwork, self.side, PartRole.BACK_SLAT, view)


def _floor(draft: Draft, elevation: Elevation, view: View) -> None:
    """The floor under the wood, through the lower faces of the feet where it slopes."""
    low, high = (view.of(length) for length in extent(elevation.parts, elevation.gaze.right))
    spots = [(low - _BEYOND, 0.0), (high + _BEYOND, 0.0)]
    if elevation.woodwork.fall and (feet := _near_feet(elevation)):
        places = [(view.of(_middle(span(foot, elevation.gaze.right))), _bottom(foot, view)) for foot in feet]
        spots = [(low - _BEYOND, places[0][1]), *places, (high + _BEYOND, places[-1][1])]
    draft.add(Line(tuple(spots), Pen.WIDE, Role.FLOOR))


def _near_feet(elevation: Elevation) -> list[Part]:
    """Of the feet that stand behind each other the nearest one, from left to right."""
    nearest: dict[Length, Part] = {}
    feet = having(elevation.parts, PartRole.FOOT)
    for foot in sorted(feet, key=lambda foot: span(foot, elevation.gaze.toward)):
        nearest[_middle(span(foot, elevation.gaze.right))] = foot
    return [nearest[place] for place in sorted(nearest)]


def _middle(ends: tuple[Length, Length]) -> Length:
    return Length((ends[0] + ends[1]).units // 2)


def _bottom(part: Part, view: View) -> float:
    return view.of(span(part, UP)[0])


def _drops(draft: Draft, elevation: Elevation, view: View) -> None:
    """The mark and the height of each foot where the floor slopes."""
    if not elevation.woodwork.fall:
        return
    for foot in _near_feet(elevation):
        low, high = span(foot, UP)
        place = (view.of(_middle(span(foot, elevation.gaze.right))), view.of(Length((low + high).units // 2)))
        point_out(draft, f"{foot.mark}, {view.written(high - low, feet=False)} high", [place])


def _lengths(draft: Draft, elevation: Elevation, view: View) -> None:
    """Posts and bays below; behind it the uprights and the first slats above as well."""
    gaze, parts = elevation.gaze, elevation.parts
    low, high = extent(parts, gaze.right)
    bottom = min(0.0, *(_bottom(part, view) for part in parts))
    here = (elevation.side, elevation.face)
    boxes = [rail.box for rail in elevation.layout.rails if (rail.run, rail.face) == here]
    boxes += [post.box for post in elevation.layout.posts if (post.run, post.face) == here and post.line is not None]
    boxes += [fill.box for fill in elevation.layout.built_fills if fill.run is elevation.side]
    bays = [place for box in boxes for place in elevation.facing.reach(box, gaze)]
    first = FIRST - bottom
    for places in dict.fromkeys((tuple(sorted({low, high, *bays})), (low, high))):
        first = chain_below(draft, places, 0.0, first, view)
    if elevation.face is Face.BACK:
        top = view.of(extent(having(parts, *_PANEL), UP)[1]) if having(parts, *_PANEL) else 0.0
        first = FIRST
        for places in _panel_places(elevation):
            first = chain_above(draft, places, top, first, view)


_PANEL = (PartRole.UPRIGHT, PartRole.TOP_RAIL, PartRole.BACK_SLAT)


def _panel_places(elevation: Elevation) -> list[tuple[Length, ...]]:
    """The first slats of the leftmost bay, then the uprights with the ends of the panel."""
    way = elevation.gaze.right
    uprights = sorted(span(part, way) for part in having(elevation.parts, PartRole.UPRIGHT))
    slats = sorted(span(part, way) for part in having(elevation.parts, PartRole.BACK_SLAT))
    chains: list[tuple[Length, ...]] = []
    if slats and uprights:
        before = max((end for _, end in uprights if end <= slats[0][0]), default=slats[0][0])
        after = min((start for start, _ in uprights if start > slats[0][0]), default=slats[-1][1])
        chains.append(begun([slat for slat in slats if slat[1] <= after], before, after))
    if uprights:
        chains.append(tuple(sorted({place for upright in uprights for place in upright})))
    return chains


def _heights(draft: Draft, elevation: Elevation, view: View) -> None:
    """A chain of heights at the left, flags with their names at the right."""
    low, high = (view.of(length) for length in extent(elevation.parts, elevation.gaze.right))
    levels = elevation_levels(elevation)
    chained: list[Length] = []
    for name in _CHAINED:
        height = next((level.height for level in levels if level.name == name), None)
        if height is not None and all(view.of(abs(height - other)) >= _APART for other in chained):
            chained.append(height)
    chain_at_left(draft, sorted(chained), low, FIRST, view)
    draw_levels(draft, levels, high, view)


_CHAINED = ("floor", "highest floor", "back top", "deck", "rail bottom", "back bottom")
_APART = 8.0  # heights that are nearer to each other are only told by flags, mm


def elevation_levels(elevation: Elevation) -> list[Level]:
    """The heights that are told of a run from one side."""
    levels, side = elevation.woodwork.levels, elevation.side
    told = [
        Level("highest floor" if elevation.woodwork.fall else "floor", ZERO),
        Level("rail bottom", levels.rail_bottom),
        Level("deck", levels.deck),
        Level("back top", levels.back_top),
    ]
    if levels.foot != levels.rail_bottom:
        told.append(Level("foot", levels.foot))
    if elevation.face is Face.FRONT:
        told.append(Level("seat", levels.seat))
    else:
        told.append(Level("back bottom", levels.back_bottom))
    if any(end.run is side and end.kind is EndKind.ARMED for end in elevation.layout.ends):
        told.append(Level("arm", levels.arm))
    shelves = [span(part, UP)[1] for part in having(elevation.parts, PartRole.SHELF_SLAT)]
    if having(elevation.parts, PartRole.TABLE_BOARD) or levels.table in shelves:
        told.append(Level("table", levels.table))
    return told
