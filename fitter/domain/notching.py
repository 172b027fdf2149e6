"""What is cut from corner cushions for what stands in the corner: how much foam, from which sides, and whether the zip.

Seen from above, a corner place has a back on two sides, which meet where the cushion is cut, and a neighbour on the
other two: the first cushion of the main run and the first one of the arm.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from fitter.domain.cushions import Cushion, CushionSide
from fitter.domain.frame import Frame
from fitter.domain.layout import Box, Layout, Module, Notch
from fitter.domain.wishes import CornerKind, Side
from rooms.lengths import Length

_AROUND = (CushionSide.BACK, CushionSide.LEFT, CushionSide.FRONT, CushionSide.RIGHT)
"""The sides of a cushion anticlockwise, seen from above; a person who faces it looks toward its back."""

# The sides of a corner place in the same sense, from the one along the main run's back.
_LOW_Y, _HIGH_X, _HIGH_Y, _LOW_X = range(4)


class Turn(StrEnum):
    """How a cushion is turned within its place, seen from above."""

    HALF = "half a turn"
    CLOCKWISE = "a quarter turn clockwise"
    ANTICLOCKWISE = "a quarter turn anticlockwise"


_QUARTERS = {Turn.HALF: 2, Turn.CLOCKWISE: 3, Turn.ANTICLOCKWISE: 1}


@dataclass(frozen=True)
class WholeZip:
    """A turn before the cut that keeps the zip whole.

    Args:
        turn: from how the layout has the cushion.
        beside: the run at whose first cushion the zip then lies, where nobody sees it.
    """

    turn: Turn
    beside: Side


@dataclass(frozen=True)
class CutCushion:
    """What is cut from one corner cushion.

    Args:
        corner: the arm that meets the main run there.
        cushion: the kind.
        sides: the two that are cut, named as by a person who faces the cushion: back or front, then left or right.
        area: of foam that is cut away, seen from above, in square units of `rooms.lengths`; exact.
        volume: the same through the thickness, as measured or else as sold, in cubic units; exact.
        depth: of the strips that are cut along an angle post; None for a plain rectangle.
        beside: the run at whose first cushion the zip lies; None where the zip lies at a back, or is not known.
        keeps: turns that keep the zip whole, where it is cut otherwise.
    """

    corner: Side
    cushion: Cushion
    sides: tuple[CushionSide, CushionSide]
    area: int
    volume: int
    depth: Length | None
    beside: Side | None
    keeps: tuple[WholeZip, ...]

    @property
    def zip_cut(self) -> bool | None:
        """Whether the side with the zip is cut; None where the file does not say where the zip is."""
        return None if self.cushion.zip is None else self.cushion.zip in self.sides


def cut_cushions(layout: Layout, cushions: tuple[Cushion, ...]) -> tuple[CutCushion, ...]:
    """Every cushion that is cut, that of the right corner first.

    Args:
        layout: the layout.
        cushions: the kinds that the project names.
    """
    kinds = {cushion.name: cushion for cushion in cushions}
    found = (cut_from(module, kinds[module.cushion]) for module in layout.corners if module.cushion is not None)
    return tuple(cut for cut in found if cut is not None)


def cut_from(module: Module, cushion: Cushion) -> CutCushion | None:
    """What is cut from the cushion of a corner place; None if it stays whole.

    As sold, a cushion has its back to the main run's back, turned to the arm's back. A right corner is the one at the
    right hand of a person who faces the seats of the main run.

    Args:
        module: the corner place with its notch.
        cushion: the kind that lies there.

    >>> from dataclasses import replace
    >>> inch = Length.inches
    >>> place, size = Box(inch(0), inch(0), inch(24), inch(24)), inch("27/8")
    >>> notch = Notch(Box(inch(0), inch(0), size, size), size, size)
    >>> corner = Module(Side.MAIN, 0, "seat", False, place, 1, notch, corner=Side.RIGHT)
    >>> seat = Cushion("seat", inch(24), inch(24), inch(5), zip=CushionSide.BACK)
    >>> cut = cut_from(corner, seat)
    >>> [str(side) for side in cut.sides], cut.zip_cut
    (['back', 'right'], True)
    >>> cut.area / inch(1).units ** 2, cut.volume / inch(1).units ** 3
    (11.390625, 56.953125)
    >>> [(str(way.turn), str(way.beside)) for way in cut.keeps]
    [('half a turn', 'right'), ('a quarter turn anticlockwise', 'main')]

    Half a turn does for any cushion, a quarter for a square one only.

    >>> bench = Cushion("bench", inch(48), inch(24), inch(5), zip=CushionSide.BACK)
    >>> [str(way.turn) for way in cut_from(corner, bench).keeps]
    ['half a turn']

    Turned, in the other corner, the same cushion has its right side at the main run's back.

    >>> turned = replace(corner, turned=True, corner=Side.LEFT)
    >>> [str(side) for side in cut_from(turned, seat).sides]
    ['back', 'right']
    >>> cut = cut_from(turned, replace(seat, zip=CushionSide.LEFT))
    >>> cut.zip_cut, str(cut.beside), cut.keeps
    (False, 'left', ())
    """
    arm = module.corner
    if module.notch is None or arm is None:
        return None
    at_arm = _LOW_X if arm is Side.RIGHT else _HIGH_X
    beside = {_HIGH_Y: arm, (at_arm + 2) % 4: Side.MAIN}
    back = at_arm if module.turned else _LOW_Y
    cut = {_AROUND[(place - back) % 4] for place in (_LOW_Y, at_arm)}
    first, second = (CushionSide.BACK, CushionSide.FRONT), (CushionSide.LEFT, CushionSide.RIGHT)
    sides = (next(side for side in first if side in cut), next(side for side in second if side in cut))
    area = sum(_area(box) for box in module.notch.cut)
    zip_at = None if cushion.zip is None else (_AROUND.index(cushion.zip) + back) % 4
    return CutCushion(
        corner=arm,
        cushion=cushion,
        sides=sides,
        area=area,
        volume=area * cushion.size[2].units,
        depth=module.notch.depth,
        beside=None if zip_at is None else beside.get(zip_at),
        keeps=tuple(_whole(cushion, zip_at, beside)) if zip_at is not None and zip_at not in beside else (),
    )


def notch_ring(notch: Notch) -> tuple[tuple[Length, Length], ...]:
    """The corners of what is cut away, anticlockwise in the layout frame: of a rectangle, or of an L for two strips.

    >>> marks = [Length(n) for n in range(5)]
    >>> along, rest = Box(marks[0], marks[0], marks[4], marks[1]), Box(marks[3], marks[1], marks[4], marks[3])
    >>> whole = Box(marks[0], marks[0], marks[4], marks[3])
    >>> ring = notch_ring(Notch(whole, marks[4], marks[3], (along, rest), marks[1]))
    >>> [(x.units, y.units) for x, y in ring]
    [(0, 0), (4, 0), (4, 3), (3, 3), (3, 1), (0, 1)]
    """
    if not notch.strips:
        return notch.box.corners
    along, rest = notch.strips
    low, high = (along.x0, along.y0), (along.x1, along.y0)
    if rest.x0 == along.x0:
        return low, high, (along.x1, along.y1), (rest.x1, along.y1), (rest.x1, rest.y1), (rest.x0, rest.y1)
    return low, high, (rest.x1, rest.y1), (rest.x0, rest.y1), (rest.x0, along.y1), (along.x0, along.y1)


def _area(box: Box) -> int:
    return (box.x1 - box.x0).units * (box.y1 - box.y0).units


def _whole(cushion: Cushion, zip_at: int, beside: dict[int, Side]) -> Iterator[WholeZip]:
    """Turns that the place allows and that bring the zip to a neighbour's side."""
    square = cushion.size[0] == cushion.size[1]
    for turn, quarters in _QUARTERS.items():
        side = beside.get((zip_at + quarters) % 4)
        if side is not None and (square or turn is Turn.HALF):
            yield WholeZip(turn, side)


def angle_boards(layout: Layout, frame: Frame, mark: Length) -> tuple[Box, ...]:
    """The two flat boards of each angle post, that along the main run's back first; the right corner's first.

    Args:
        layout: the layout; without angle posts there are no such boards.
        frame: names their section.
        mark: the shop mark that sizes are rounded up to.
    """
    if layout.corner is not CornerKind.ANGLE_POST:
        return ()
    thick, wide = frame.angle.thickness.ceil_to(mark), frame.angle.width.ceil_to(mark)
    boards: list[Box] = []
    for place in layout.corners:
        y = place.box.y0
        for across, up, y0 in ((wide, thick, y), (thick, wide, y + thick)):
            x0 = place.box.x0 if place.corner is Side.RIGHT else place.box.x1 - across
            boards.append(Box(x0, y0, x0 + across, y0 + up))
    return tuple(boards)
