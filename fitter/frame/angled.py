"""Screws that do not go square through: pocket screws, and those across a mitre."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import pairwise

from fitter.domain.woodwork import Fixing, Number, PartRole
from fitter.frame.bodies import Body, Floats
from fitter.frame.clearance import APART, Bar
from fitter.frame.fasteners import TIP, Size, chosen, sold, suited
from fitter.frame.patterns import Meeting, Pattern
from fitter.frame.pockets import BEHIND_MOUTH, BORE, COS, SIN, Pocket, exit_depth, mouth_back, pocket
from fitter.frame.spots import BEHIND, LEAST_EDGE, Drive, Places, Plane, Shop, Spot, Task, nowhere, on_mark, within
from rooms.lengths import Length

BORE_KEEP = Length.inches("7/32").units
"""What a bore keeps clear around its middle line."""
APART_BORES = Length.inches("3/4").units
"""Between two bores side by side: common practice."""
_SHORT = Length.inches("5/2").units
"""Contact below which one pocket screw is enough, as the part is held beside it too."""
_RAILS = ((Length.inches("37/10"), 2), (Length.inches("57/10"), 3))
"""Widest rail for so many pocket screws; a wider one has four: common practice."""


def pockets(task: Task, shop: Shop) -> Places:
    """Pocket screws from the long face that neither shows nor gathers water; each spot is a place across that face."""
    plane = Plane.of(task.patch)
    if plane is None:
        return nowhere()
    size = sold(Fixing.POCKET_SCREW, imperial=shop.imperial)[0]
    for thick, high in bored_faces(plane.axis, task.meeting.held, shop):
        maker = Angled(task.meeting, plane, (thick, high), size)
        if maker.pocket is not None:
            return _side_by_side(maker, task.pattern, shop.mark), maker.at
    return nowhere()


def bored_faces(butting: int, held: Body, shop: Shop) -> list[tuple[int, bool]]:
    """Faces to bore from, best first, as their axis and whether it is the high one.

    Never one that looks up, which would gather water, nor one that is to be seen.
    """
    square = held.size[1] == held.size[2]
    shows = _shows(held, shop)
    faces = []
    for axis in (2, 1) if square else (2,):
        for high in (False, True):
            looks = held.facing(axis, high=high)
            seen = sum(a * b for a, b in zip(looks, shows, strict=True))
            if axis != butting and looks[2] < 0.3 and seen < 0.3:
                lying = sum(patch.axis == axis and patch.high == high for patch in held.touching)
                faces.append((lying, seen, axis, high))
    return [(axis, high) for *_, axis, high in sorted(faces)]


def _shows(held: Body, shop: Shop) -> Floats:
    """Where the face of a part looks that is to be seen; nil where none is."""
    part, back = held.part, BEHIND[held.part.run]
    if part.role is PartRole.BACK_RAIL:
        return back
    if part.role is PartRole.CROSS_RAIL:
        return 0.0, 0.0, 0.0
    if part.role in (PartRole.END_RAIL, PartRole.ARM_RAIL):
        middle = held.world((held.size[0] / 2, held.size[1] / 2, held.size[2] / 2))
        x, y, _ = (1.0 if a > b else -1.0 for a, b in zip(middle, shop.middles[part.run], strict=True))
        return (0.0, y, 0.0) if back[0] else (x, 0.0, 0.0)
    return -back[0], -back[1], 0.0


class Angled:
    """Makes the pocket screws of one joint."""

    def __init__(self, meeting: Meeting, plane: Plane, bored: tuple[int, bool], size: Size) -> None:
        self.held, self.into, self.plane, self.size = meeting.held, meeting.into, plane, size
        self.thick, self.from_high = bored
        self.over = 3 - plane.axis - self.thick
        self.way = self._along(float(COS), float(SIN))
        self.way_into = self.into.turned(_whole_way(self.held, self.way))
        self.pocket = self._pocket()
        if self.pocket is not None:
            self._set_out(self.pocket)

    def _along(self, ahead: float, deeper: float) -> Floats:
        way = [0.0, 0.0, 0.0]
        way[self.plane.axis] = ahead if self.plane.high else -ahead
        way[self.thick] = -deeper if self.from_high else deeper
        return way[0], way[1], way[2]

    def _pocket(self) -> Pocket | None:
        """The same for every screw of the joint, as the wood is deep in the middle of the contact."""
        stock, back = int(self.held.size[self.thick]), int(self.held.size[self.plane.axis])
        leave = self._leaves(exit_depth(stock, back), stock)
        low, high = self.plane.span(self.over)
        if leave is None or mouth_back(leave) > back - BEHIND_MOUTH.units:
            return None
        room = self._room(_floats(self._point(Fraction(0), leave), self.over, int(low + high) // 2))
        return pocket(leave, stock, Fraction(int(room)), self.size)

    def _leaves(self, wanted: Fraction, stock: int) -> Fraction | None:
        """Depth below the bored face at which the screw leaves, moved to where the parts touch."""
        low, high = self.plane.span(self.thick)
        least = LEAST_EDGE * self.size.shank
        first, last = (stock - high + least, stock - low - least) if self.from_high else (low + least, high - least)
        return Fraction(int(min(max(float(wanted), first), last))) if first <= last else None

    def _point(self, before: Number, deep: Number) -> list[Number]:
        """A point so far before the butting face and below the bored one, in the held part's axes; at 0 across."""
        point: list[Number] = [0] * 3
        point[self.plane.axis] = int(self.plane.at) - before if self.plane.high else int(self.plane.at) + before
        point[self.thick] = int(self.held.size[self.thick]) - deep if self.from_high else deep
        return point

    def _set_out(self, bore: Pocket) -> None:
        """All points of a screw that is at 0 across."""
        self.past = bore.length.units - bore.web
        self.head, self.tip = self._point(*bore.head), self._point(-self.past * COS, bore.exit + self.past * SIN)
        self.leave, self.mouth = self._point(0, bore.exit), self._point(bore.mouth, 0)
        # The mouth is a long oval; three places of it are looked at.
        self.oval = [_floats(self._point(x, 0)) for x in (2 * bore.mouth - bore.back, bore.mouth, bore.back)]
        self.near = tuple(_floats(point) for point in (self.head, self.tip, self.leave, self.mouth))
        self.bored = float(bore.mouth)

    def at(self, spot: Spot, lenient: bool) -> Drive | None:
        """The screw at a place across the bored face, if there is wood for it and its mouth is free."""
        bore, over = self.pocket, spot[0]
        if bore is None or not (lenient or self.open(over)):
            return None
        head, tip, leave, mouth = (_floats(point, self.over, over) for point in self.near)
        if self._room(leave) < self.past + TIP.units - 1:
            return None
        if not self.held.whole and self.held.depth(mouth, self.way) < self.bored - 1:
            return None
        start, stop = self.held.world(head), self.held.world(tip)
        bars = Bar(start, stop, self.size.shank * APART / 2), Bar(self.held.world(mouth), start, BORE_KEEP)
        return Drive(self.size, bore.length, self._whole(self.head, over), self._whole(self.tip, over), bars)

    def open(self, over: int) -> bool:
        """Whether nothing lies on the mouth."""
        ovals = (_floats(point, self.over, over) for point in self.oval)
        return not any(self.held.hidden(self.thick, at, BORE.units / 2, high=self.from_high) for at in ovals)

    def _whole(self, point: list[Number], over: int) -> tuple[Number, Number, Number]:
        x, y, z = (over if axis == self.over else at for axis, at in enumerate(point))
        return x, y, z

    def _room(self, leave: Floats) -> float:
        return self.into.depth(self.into.local(self.held.world(leave)), self.way_into)


def _side_by_side(maker: Angled, pattern: Pattern, mark: int) -> Sequence[Iterable[Spot]]:
    """Evenly over what is free of the bored face, side by side."""
    span = maker.plane.span(maker.over)
    limits = within((span[0] + mark, span[1] - mark), maker.size)
    if limits is None:
        return []
    step = 3 * mark
    first = on_mark(limits[0], limits, mark)
    every = [first + i * step for i in range(int(limits[1] - first) // step + 1)]
    free = [over for over in every if maker.open(over)]
    if not every:
        return []
    number = _number(maker, pattern, span)
    wanted = _even(free, number) or _even(every, number)
    while not wanted:
        number -= 1
        wanted = _even(free, number) or _even(every, number)
    return [[(over, 0) for over in sorted(every, key=lambda o: (o not in free, abs(o - w), o))] for w in wanted]


def _number(maker: Angled, pattern: Pattern, span: tuple[float, float]) -> int:
    """By the width of a rail; by the length of anything else."""
    long = span[1] - span[0]
    if maker.plane.axis == 0:
        return next((number for limit, number in _RAILS if long <= limit.units), 4)
    return max(pattern.least if long >= _SHORT else 1, -(-int(long) // pattern.every.units))


def _even(free: list[int], number: int) -> list[int]:
    """So many of them, evenly; none where that brings two too close."""
    if number <= 1:
        return free[len(free) // 2 :][:1]
    if len(free) < number:
        return []
    spots = [free[(len(free) - 1) * i // (number - 1)] for i in range(number)]
    return spots if all(b - a >= APART_BORES for a, b in pairwise(spots)) else []


def mitres(task: Task, shop: Shop) -> Places:
    """Through the outer face of one piece into the end of the other; each spot is (depth at the mitre, place across).

    The screw crosses the mitre at its middle, clear of what holds the feet, and goes on along the other's grain: it
    draws the mitre tight, and the glue and the square of the four pieces hold it.
    """
    held, patch = task.meeting.held, task.patch
    last = patch.low[0] + patch.top[0] > held.size[0]
    cut = held.part.cuts[1 if last else 0]
    width = int(held.size[1])
    limits = within((patch.low[2], patch.top[2]), suited(Fixing.SCREW, width, imperial=shop.imperial)[0])
    if cut.square or limits is None:
        return nowhere()
    inset = max(limits[0], patch.low[2] + (patch.top[2] - patch.low[2]) / 4)
    places = (inset, patch.top[2] + patch.low[2] - inset)
    deep = on_mark(width / 2, (0, width), shop.mark)
    steps = [0, *(sign * i * 2 * shop.mark for i in range(1, 6) for sign in (1, -1))]
    spots = [
        [(deep + b, on_mark(c, limits, shop.mark) + a) for b in steps for a in steps[:5] if 0 < deep + b < width]
        for c in places
    ]
    return spots, _Across(task.meeting, last, shop).at


class _Across:
    """Makes screws across one mitre."""

    def __init__(self, meeting: Meeting, last: bool, shop: Shop) -> None:
        self.held, self.into, self.last, self.shop = meeting.held, meeting.into, last, shop
        self.cut = self.held.part.cuts[1 if last else 0]
        self.way: Floats = (0.0, 1.0 if self.cut.low else -1.0, 0.0)
        self.way_into = self.into.turned(_whole_way(self.held, self.way))

    def at(self, spot: Spot, lenient: bool) -> Drive | None:
        """The screw at a spot, if there is wood for it and its head is free."""
        deep, over = spot
        width, length = self.held.part.width.units, self.held.part.length.units
        back = Fraction(self.cut.recess.units * deep, width)
        along = length - back if self.last else back
        head, sign = (along, 0, over) if self.cut.low else (along, width, over), 1 if self.cut.low else -1
        contact = self.held.world((float(along), float(head[1] + sign * deep), float(over)))
        room = int(self.into.depth(self.into.local(contact), self.way_into))
        picked = chosen(suited(Fixing.SCREW, deep, imperial=self.shop.imperial), deep, room)
        if picked is None:
            return None
        size, sold_length = picked
        high = not self.cut.low
        if not lenient and self.held.hidden(1, _floats(head), size.shank, high=high):
            return None
        tip = (along, head[1] + sign * sold_length.units, over)
        bar = Bar(self.held.world(_floats(head)), self.held.world(_floats(tip)), size.shank * APART / 2)
        return Drive(size, sold_length, head, tip, (bar,))


def _whole_way(body: Body, way: Floats) -> Floats:
    """A direction in a part's own axes, in the layout frame."""
    x, y, z = body.world(way)
    return x - body.origin[0], y - body.origin[1], z - body.origin[2]


def _floats(point: Sequence[Number | float], axis: int = 0, at: Number | None = None) -> Floats:
    """A point as floats; one axis may be given apart."""
    x, y, z = float(point[0]), float(point[1]), float(point[2])
    if at is None:
        return x, y, z
    return (float(at), y, z) if axis == 0 else (x, float(at), z) if axis == 1 else (x, y, float(at))
