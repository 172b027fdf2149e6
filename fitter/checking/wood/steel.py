"""Every screw, nail and bolt of a frame as arrays, and how each runs through its two parts; in inches."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from fitter.checking.wood.solids import TINY, Counts, Flags, Floats, Solids, inches
from fitter.domain.woodwork import Fastener, Fixing, Joint, Vector
from rooms.lengths import UNITS_PER_INCH

FAR = 1e6


def _point(vector: Vector) -> tuple[float, ...]:
    return tuple(float(x) / UNITS_PER_INCH for x in vector)


@dataclass(frozen=True)
class Course:
    """How straight lines run through one part each, all counted from the heads along the lines.

    Args:
        enter: where each first comes into the part; FAR where it never does.
        leave: where it last goes out of it.
        inside: how much wood there is between the head and the tip.
        face: outward normal of the face that it comes in by; lines × 3.
    """

    enter: Floats
    leave: Floats
    inside: Floats
    face: Floats


@dataclass(frozen=True)
class Steel:
    """Fasteners in the order of the joints.

    Args:
        solids: of the parts.
        fasteners: all of them.
    """

    solids: Solids
    fasteners: tuple[Fastener, ...]

    @classmethod
    def of(cls, solids: Solids, joints: tuple[Joint, ...]) -> Steel:
        """All fasteners of some joints that speak of parts there are."""
        count = len(solids.parts)
        found = (fastener for joint in joints for fastener in joint.fasteners)
        return cls(solids, tuple(f for f in found if 0 <= f.through < count and 0 <= f.into < count))

    @cached_property
    def heads(self) -> Floats:
        """Where heads seat; fasteners × 3."""
        return np.array([_point(f.head) for f in self.fasteners]).reshape(-1, 3)

    @cached_property
    def tips(self) -> Floats:
        """Where they end; fasteners × 3."""
        return np.array([_point(f.tip) for f in self.fasteners]).reshape(-1, 3)

    @cached_property
    def long(self) -> Floats:
        """From head to tip."""
        return np.asarray(np.linalg.norm(self.tips - self.heads, axis=1))

    @cached_property
    def ways(self) -> Floats:
        """Unit vectors from head to tip; fasteners × 3."""
        return np.asarray((self.tips - self.heads) / np.maximum(self.long, TINY)[:, None])

    @cached_property
    def thick(self) -> Floats:
        """Diameters."""
        return np.array([float(f.diameter) / UNITS_PER_INCH for f in self.fasteners])

    @cached_property
    def sold(self) -> Floats:
        """Lengths as sold."""
        return np.array([inches(f.length) for f in self.fasteners])

    def are(self, *kinds: Fixing) -> Flags:
        """Which of them are of some kinds."""
        return np.array([f.kind in kinds for f in self.fasteners], dtype=bool)

    @cached_property
    def through(self) -> Course:
        """How they run through the parts that they hold."""
        return self._course(np.array([f.through for f in self.fasteners], dtype=np.intp))

    @cached_property
    def into(self) -> Course:
        """How they run through the parts that they bite."""
        return self._course(np.array([f.into for f in self.fasteners], dtype=np.intp))

    def _course(self, part: Counts) -> Course:
        """Each line against each piece of its part: between the last face come in by and the first gone out by."""
        first = np.searchsorted(self.solids.part, part, side="left")
        count = np.searchsorted(self.solids.part, part, side="right") - first
        line = np.repeat(np.arange(len(part)), count)
        piece = np.arange(len(line)) - np.repeat(np.cumsum(count) - count, count) + np.repeat(first, count)
        outside = np.einsum("rfk,rk->rf", self.solids.normals[piece], self.heads[line]) - self.solids.offsets[piece]
        rising = np.einsum("rfk,rk->rf", self.solids.normals[piece], self.ways[line])
        even = np.abs(rising) < 1e-9
        at = -outside / np.where(even, 1.0, rising)
        enters, leaves = np.where(~even & (rising < 0), at, -FAR), np.where(~even & (rising > 0), at, FAR)
        enter, leave = enters.max(axis=1, initial=-FAR), leaves.min(axis=1, initial=FAR)
        hit = (leave > enter + TINY / 10) & ~(even & (outside > TINY)).any(axis=1)
        return self._joined(line[hit], piece[hit], enter[hit], leave[hit], enters[hit].argmax(axis=1))

    def _joined(self, line: Counts, piece: Counts, enter: Floats, leave: Floats, face: Counts) -> Course:
        """The pieces of each part taken together."""
        number = len(self.fasteners)
        first, last, wood = np.full(number, FAR), np.full(number, -FAR), np.zeros(number)
        np.minimum.at(first, line, enter)
        np.maximum.at(last, line, leave)
        np.add.at(wood, line, np.clip(np.minimum(leave, self.long[line]) - np.maximum(enter, 0.0), 0.0, None))
        normals = np.zeros((number, 3))
        foremost = enter <= first[line] + TINY / 10
        normals[line[foremost]] = self.solids.normals[piece[foremost], face[foremost]]
        return Course(first, last, wood, normals)

    @cached_property
    def bores(self) -> tuple[Counts, Floats]:
        """Pocket screws by number, and where the middle of each bore meets the face that it begins in."""
        which = np.flatnonzero(self.are(Fixing.POCKET_SCREW) & (self.through.enter < 0) & (self.through.enter > -FAR))
        return which, self.heads[which] + self.ways[which] * self.through.enter[which, None]


def near(low: Floats, high: Floats, margin: float) -> tuple[Counts, Counts]:
    """Pairs of boxes in space within a margin of each other, each pair once."""
    low, high = low - margin / 2, high + margin / 2
    flat = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
    one, other = shapely.STRtree(flat).query(flat)
    keep = (one < other) & (low[one, 2] <= high[other, 2]) & (low[other, 2] <= high[one, 2])
    return one[keep], other[keep]


def between(a: Floats, b: Floats, c: Floats, d: Floats) -> Floats:
    """Distances from segments ab to segments cd: where the lines come nearest, and from every end; rows × 3 each."""
    found = np.minimum(
        np.minimum(_to_segment(a, c, d), _to_segment(b, c, d)), np.minimum(_to_segment(c, a, b), _to_segment(d, a, b))
    )
    u, v, w = b - a, d - c, a - c
    uu, vv, uv = (np.einsum("rk,rk->r", x, y) for x, y in ((u, u), (v, v), (u, v)))
    uw, vw = np.einsum("rk,rk->r", u, w), np.einsum("rk,rk->r", v, w)
    flat = uu * vv - uv * uv
    skew = flat > 1e-9 * uu * vv
    safe = np.where(skew, flat, 1.0)
    s, t = (uv * vw - vv * uw) / safe, (uu * vw - uv * uw) / safe
    inner = skew & (s > 0) & (s < 1) & (t > 0) & (t < 1)
    crossing = np.linalg.norm(w + s[:, None] * u - t[:, None] * v, axis=1)
    return np.asarray(np.where(inner, np.minimum(found, crossing), found))


def _to_segment(point: Floats, start: Floats, stop: Floats) -> Floats:
    way = stop - start
    size = np.maximum(np.einsum("rk,rk->r", way, way), TINY * TINY)
    share = np.clip(np.einsum("rk,rk->r", point - start, way) / size, 0.0, 1.0)
    return np.asarray(np.linalg.norm(start + share[:, None] * way - point, axis=1))
