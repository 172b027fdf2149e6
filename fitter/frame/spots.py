"""Spots for fasteners on a contact: in rows, clear of its edges, on the mark, the wanted spot first."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from typing import TypeAlias

from fitter.domain.layout import Side
from fitter.domain.woodwork import Fixing, Number
from fitter.frame.bodies import Floats, Patch
from fitter.frame.clearance import Bar
from fitter.frame.fasteners import Size, pilot
from fitter.frame.patterns import How, Meeting, Pattern
from rooms.lengths import Length

EDGE = 2.5
"""Diameters to an edge, for screws and nails: NDS commentary, Table C12.1.6.6, from memory."""
END = 5
"""Diameters to an end, prebored, where there is room: the same table, from memory."""
BOLT_END = 2
"""The same for bolts, loaded across the grain: half of the 4 for their full value, NDS 12.5.1, from memory."""
LEAST_EDGE = 1.5
"""Diameters to an edge for bolts (NDS 12.5.1, from memory); below that the wood is left whole."""
BEHIND: dict[Side, Floats] = {Side.MAIN: (0.0, -1.0, 0.0), Side.RIGHT: (-1.0, 0.0, 0.0), Side.LEFT: (1.0, 0.0, 0.0)}
"""Where the backs of each run look."""


@dataclass(frozen=True)
class Shop:
    """What is the same for all joints of a frame.

    Args:
        imperial: whether screws and drills come in inches.
        mark: what places are rounded to, in units.
        gravity: specific gravity of the wood.
        middles: of all parts of each run, in the layout frame.
        pilots: holes to bore first, as far as they were asked for.
    """

    imperial: bool
    mark: int
    gravity: Fraction
    middles: dict[Side, Floats]
    pilots: dict[tuple[Fixing, str, bool], Fraction] = field(default_factory=dict)

    def pilot(self, size: Size, *, near_end: bool) -> Fraction:
        """The hole to bore first, see `fasteners.pilot`."""
        key = (size.kind, size.name, near_end)
        if key not in self.pilots:
            self.pilots[key] = pilot(size, self.gravity, near_end=near_end, imperial=self.imperial)
        return self.pilots[key]


@dataclass(frozen=True)
class Task:
    """A contact that is to be fastened.

    Args:
        meeting: the part that is held, the other, and the normal between.
        patch: where they touch, in the held part's own axes.
        pattern: how.
        slim: whether the slimmest and shortest that will do is taken, as others have been found not to fit.
    """

    meeting: Meeting
    patch: Patch
    pattern: Pattern
    slim: bool = False


@dataclass(frozen=True)
class Drive:
    """A fastener before it is exact.

    Args:
        size: of it.
        length: as sold.
        head: where its head lies in the held part's own axes.
        tip: where it ends there.
        bars: what it takes up in the layout frame.
    """

    size: Size
    length: Length
    head: tuple[Number, Number, Number]
    tip: tuple[Number, Number, Number]
    bars: tuple[Bar, ...]


Spot: TypeAlias = tuple[int, int]
"""Two numbers that say where a fastener goes, in units; which, its maker knows."""
Places: TypeAlias = tuple[Sequence[Iterable[Spot]], Callable[[Spot, bool], Drive | None]]
"""For each fastener its spots, the wanted one first, and what makes one there (or under something, if told so)."""


def nowhere() -> Places:
    """No fastener at all."""
    return [], lambda _spot, _lenient: None


@dataclass(frozen=True)
class Plane:
    """A contact as a rectangle in two of the held part's axes: u along its longer side, v along the shorter one.

    Args:
        axis: square on it.
        high: whether the other part lies toward the high end of that axis.
        u: number of the longer axis.
        v: number of the shorter one.
        patch: where they touch.
    """

    axis: int
    high: bool
    u: int
    v: int
    patch: Patch

    @classmethod
    def of(cls, patch: Patch) -> Plane | None:
        """The plane of a patch that lies on a face; None on a slanted end."""
        if patch.axis is None:
            return None
        one, two = (k for k in range(3) if k != patch.axis)
        longer = patch.top[one] - patch.low[one] >= patch.top[two] - patch.low[two]
        return cls(patch.axis, patch.high, one if longer else two, two if longer else one, patch)

    def span(self, axis: int) -> tuple[float, float]:
        """From where to where it reaches along an axis."""
        return self.patch.low[axis], self.patch.top[axis]

    @property
    def at(self) -> float:
        """Where it lies on its axis."""
        return self.patch.low[self.axis]


def row(task: Task, plane: Plane, size: Size, mark: int) -> list[Around]:
    """A row of fasteners along the longer side; each spot is (u, v)."""
    pattern = task.pattern
    along, over = within(plane.span(plane.u), size), within(plane.span(plane.v), size)
    if along is None or over is None:
        return []
    if not task.slim:
        inner, over = _off_ends(along, plane.u, task.meeting, size), _off_ends(over, plane.v, task.meeting, size)
        # On a short contact the row is kept wide instead.
        along = inner if 3 * (inner[1] - inner[0]) >= 2 * (along[1] - along[0]) else along
    low, high = plane.span(plane.u)
    inset = max(along[0] - low, _inset(high - low, pattern))
    first, last = low + inset, high - inset
    number = max(pattern.least, -(-int(last - first) // pattern.every.units) + 1) if along[0] < along[1] else 1
    middle, aside = (over[0] + over[1]) / 2, (over[1] - over[0]) / 2 if pattern.how is How.STAGGERED else 0.0
    rows = []
    for i in range(number):
        u = first + (last - first) * i / (number - 1) if number > 1 else (along[0] + along[1]) / 2
        rows.append(Around(u, middle + (aside if i % 2 else -aside), along, over, mark))
    return rows


def _off_ends(limits: tuple[float, float], axis: int, meeting: Meeting, size: Size) -> tuple[float, float]:
    """The limits along an axis of the held part, drawn in to keep off the ends of both parts where there is room."""
    held, into = meeting.held, meeting.into
    off = (BOLT_END if size.kind is Fixing.BOLT else END) * size.shank
    low, high = (off, held.size[0] - off) if axis == 0 else limits
    found = into.axis_of(into.turned(held.facing(axis, high=True)))
    if found and found[0] == 0:
        start = into.local(held.origin)[0]
        ends = (off - start, into.size[0] - off - start) if found[1] else (start - into.size[0] + off, start - off)
        low, high = max(low, ends[0]), min(high, ends[1])
    low, high = max(low, limits[0]), min(high, limits[1])
    return (low, high) if low <= high else limits


def _inset(long: float, pattern: Pattern) -> float:
    """How far from the ends of a contact a row begins; bolts in a tall one keep below the cleats."""
    if pattern.how is How.BOLTS and long > _TALL:
        return long / 4
    return min(long / 6, float(Length.inches(2).units))


def within(span: tuple[float, float], size: Size) -> tuple[float, float] | None:
    """Where a fastener keeps off both edges; the middle where that is narrow; None where it is too narrow."""
    low, high = span
    edge = (LEAST_EDGE if size.kind is Fixing.BOLT else EDGE) * size.shank
    if high - low >= 2 * edge:
        return low + edge, high - edge
    if high - low >= 2 * LEAST_EDGE * size.shank:
        return (low + high) / 2, (low + high) / 2
    return None


_TALL = Length.inches(8).units
_STEP = Length.inches("3/16")


@dataclass(frozen=True)
class Around:
    """Spots on the mark around a point, nearest first, inside of limits.

    Args:
        u: of the point.
        v: likewise.
        along: limits of u.
        over: limits of v.
        mark: the shop mark, in units.
    """

    u: float
    v: float
    along: tuple[float, float]
    over: tuple[float, float]
    mark: int

    def __iter__(self) -> Iterator[Spot]:
        step = _STEP.ceil_to(Length(self.mark)).units
        u, v = on_mark(self.u, self.along, self.mark), on_mark(self.v, self.over, self.mark)
        most = int((self.along[1] - self.along[0]) // step) + 2 * int((self.over[1] - self.over[0]) // step) + 2
        for ring in range(most):
            for i, j in _ring(ring):
                a, b = u + i * step, v + j * step
                if (i == 0 or self.along[0] <= a <= self.along[1]) and (j == 0 or self.over[0] <= b <= self.over[1]):
                    yield a, b


@lru_cache(maxsize=512)
def _ring(far: int) -> tuple[tuple[int, int], ...]:
    """Steps along and across that are so far off; one across counts as two."""
    return tuple((i, j) for i in range(-far, far + 1) for j in range(-far, far + 1) if abs(i) + 2 * abs(j) == far)


def on_mark(x: float, limits: tuple[float, float], mark: int) -> int:
    """The nearest mark that lies inside of the limits; the place itself where none does."""
    below = int(x // mark) * mark
    above = below + mark
    near, other = (above, below) if above - x < x - below else (below, above)
    if limits[0] <= near <= limits[1]:
        return near
    if limits[0] <= other <= limits[1]:
        return other
    return int(x)
