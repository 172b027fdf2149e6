"""What fixes the place of furniture that stands free: how far its outer corners are from the room's edges."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import hypot

from fitter.domain.layout import Layout
from fitter.domain.wishes import Side
from rooms.lengths import Length
from rooms.room import Edge, Room


@dataclass(frozen=True)
class Gap:
    """The shortest way from a corner of the furniture to the outline.

    Args:
        corner: in words, for a person who faces the seats of the main run.
        place: of the corner in the room frame, in units.
        touch: the nearest point of the outline, in units.
        edge: name of the edge that it lies on.
    """

    corner: str
    place: tuple[float, float]
    touch: tuple[float, float]
    edge: str

    @property
    def length(self) -> Length:
        """How long it is, to the nearest unit."""
        return Length(round(hypot(self.place[0] - self.touch[0], self.place[1] - self.touch[1])))


def fixing_gaps(room: Room, layout: Layout) -> tuple[Gap, ...]:
    """Three gaps that fix the place and the turn: at both ends of the back, and at an outer corner far from it."""
    low, high = min(box.x0 for box in layout.footprint), max(box.x1 for box in layout.footprint)
    back = min(box.y0 for box in layout.footprint)
    arm = layout.run(Side.RIGHT) or layout.run(Side.LEFT)
    ends = [end for end in layout.ends if arm is None or end.run is arm.side]
    far = max(end.box.y1 for end in ends)
    last = "right end of the front" if arm is None else f"end of the {arm.side} arm"
    side = high if arm is not None and arm.side is Side.LEFT else low
    one, other = (
        _gap(room.edges, f"{name} end of the back", layout.pose.to_room(x, back))
        for name, x in (("right", low), ("left", high))
    )
    # Two gaps to one edge leave it free to slide along that edge, so the third is to another.
    edges = tuple(edge for edge in room.edges if one.edge != other.edge or edge.name != one.edge)
    return one, other, _gap(edges, last, layout.pose.to_room(side, far))


def _gap(edges: tuple[Edge, ...], corner: str, place: tuple[Fraction, Fraction]) -> Gap:
    spot = (float(place[0]), float(place[1]))
    touches = [(edge.name, _nearest(edge, spot)) for edge in edges]
    name, touch = min(touches, key=lambda pair: hypot(pair[1][0] - spot[0], pair[1][1] - spot[1]))
    return Gap(corner, spot, touch, name)


def _nearest(edge: Edge, spot: tuple[float, float]) -> tuple[float, float]:
    """The point of an edge that is nearest to a place."""
    x, y = edge.start.x.units, edge.start.y.units
    dx, dy = edge.end.x.units - x, edge.end.y.units - y
    share = ((spot[0] - x) * dx + (spot[1] - y) * dy) / (dx * dx + dy * dy)
    inner = min(max(share, 0.0), 1.0)
    return x + inner * dx, y + inner * dy
