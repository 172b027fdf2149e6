"""Screws, nails and bolts that go square through the part that is held."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from fitter.domain.woodwork import Fixing
from fitter.frame.bodies import Floats
from fitter.frame.clearance import APART, Bar
from fitter.frame.fasteners import Size, bolt, chosen, suited
from fitter.frame.patterns import Meeting
from fitter.frame.spots import Drive, Places, Plane, Shop, Spot, Task, nowhere, row
from rooms.lengths import Length

MOST = Length.inches(1000).units
"""More wood than any fastener needs."""
WASHER = 4 / 3
"""Half of a washer or of a carriage bolt's head, in diameters of the bolt."""


def straight(task: Task, shop: Shop) -> Places:
    """A row of fasteners along the contact; each spot is a place in the plane of the contact."""
    plane = Plane.of(task.patch)
    if plane is None:
        return nowhere()
    through = int(task.meeting.held.size[plane.axis])
    if task.pattern.fixing is not Fixing.BOLT and through > task.pattern.thickest.units:
        return nowhere()
    sizes = suited(task.pattern.fixing, through, imperial=shop.imperial)
    sizes = sizes[-1:] if task.slim else sizes
    rows, maker = (
        row(task, plane, sizes[0], shop.mark),
        Straight(task.meeting, plane, sizes, task.slim or task.pattern.light),
    )
    maker.limit([next(iter(spots)) for spots in rows])
    return rows, maker.at


class Straight:
    """Makes fasteners that go square through the held part."""

    def __init__(self, meeting: Meeting, plane: Plane, sizes: tuple[Size, ...], slim: bool) -> None:
        self.held, self.into, self.plane, self.sizes = meeting.held, meeting.into, plane, sizes
        self.bolts = sizes[0].kind is Fixing.BOLT
        self.through = int(self.held.size[plane.axis])
        self.way: Floats = tuple((1.0 if plane.high else -1.0) * (k == plane.axis) for k in range(3))  # type: ignore[assignment]
        self.way_into = self.into.turned(meeting.normal)
        self.far = self.into.axis_of(self.way_into)
        self.slim = slim
        self._known: dict[int, tuple[Size, Length] | None] = {}
        self._most = MOST

    def limit(self, spots: Iterable[Spot]) -> None:
        """Let all be as long as the one that has least wood before it."""
        if self._even is None and not self.bolts:
            rooms = [self._room(self.held.world(_floats(self._point(spot, int(self.plane.at))))) for spot in spots]
            self._most = min((room for room in rooms if self._picked(room)), default=MOST)

    def at(self, spot: Spot, lenient: bool) -> Drive | None:
        """The fastener at a spot, if there is wood for it.

        Args:
            spot: its place in the plane, u and v.
            lenient: whether its head may lie under another part.
        """
        plane, held = self.plane, self.held
        head, foot = self._point(spot, 0 if plane.high else self.through), self._point(spot, int(plane.at))
        start, contact = held.world(_floats(head)), held.world(_floats(foot))
        if not held.whole and held.depth(_floats(head), self.way) < self.through - 1:
            return None
        room = self._even if self._even is not None else self._room(contact)
        picked = self._picked(min(room, self._most))
        if picked is None or (not (lenient and not self.bolts) and self._covered(head, contact, picked[0])):
            return None
        size, length = picked
        long = self.through + room if self.bolts else length.units
        tip = self._point(spot, head[plane.axis] + (long if plane.high else -long))
        keep = size.shank * APART / 2
        return Drive(size, length, head, tip, (Bar(start, held.world(_floats(tip)), keep),))

    def _point(self, spot: Spot, deep: int) -> tuple[int, int, int]:
        point = [deep] * 3
        point[self.plane.u], point[self.plane.v] = spot
        return point[0], point[1], point[2]

    @cached_property
    def _even(self) -> int | None:
        """How deep the other part is everywhere, where it is a plain stick that is met square."""
        return int(self.into.size[self.far[0]]) if self.far and self.into.whole else None

    def _room(self, contact: Floats) -> int:
        return int(self.into.depth(self.into.local(contact), self.way_into) + 0.01)

    def _picked(self, room: int) -> tuple[Size, Length] | None:
        if room not in self._known:
            self._known[room] = (
                self._bolt(room) if self.bolts else chosen(self.sizes, self.through, room, least=self.slim)
            )
        return self._known[room]

    def _bolt(self, room: int) -> tuple[Size, Length] | None:
        length = bolt(self.sizes[0], self.through + room) if room else None
        return None if length is None else (self.sizes[0], length)

    def _covered(self, head: tuple[int, int, int], contact: Floats, size: Size) -> bool:
        """Whether something lies where its head goes, or where a nut is to be put on."""
        around = size.shank * (WASHER if self.bolts else 1.0)
        if self.held.hidden(self.plane.axis, _floats(head), around, high=not self.plane.high):
            return True
        if not self.bolts or self.far is None:
            return self.bolts
        return self.into.hidden(self.far[0], self.into.local(contact), around, high=self.far[1])


def _floats(point: tuple[int, int, int]) -> Floats:
    return float(point[0]), float(point[1]), float(point[2])
