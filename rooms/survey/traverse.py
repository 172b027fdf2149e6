"""The walk round an outline by distances and directions, and how far it misses closing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, hypot, radians, sin


@dataclass(frozen=True)
class Closure:
    """A closed traverse, computed but not yet adjusted; all lengths in the unit of the distances.

    Args:
        latitudes: of each line, along the direction of azimuth 0.
        departures: of each line, along the direction of azimuth 90.
        perimeter: sum of the distances.
        misclosure: distance from the end of the walk to its beginning.
    """

    latitudes: tuple[float, ...]
    departures: tuple[float, ...]
    perimeter: float
    misclosure: float

    @property
    def ratio(self) -> int | None:
        """The n of 1:n, perimeter to misclosure; None when the walk closes exactly."""
        return round(self.perimeter / self.misclosure) if self.misclosure else None

    @property
    def balanced(self) -> tuple[tuple[float, float], ...]:
        """Latitude and departure of each line after the compass rule.

        Each line takes a share of the misclosure in proportion to its distance (N. Bowditch's rule; FM
        and survey texts give it as correction = -sum of latitudes x distance / perimeter; from memory).
        """
        north, east = sum(self.latitudes), sum(self.departures)
        shares = [hypot(lat, dep) / self.perimeter for lat, dep in zip(self.latitudes, self.departures, strict=True)]
        lines = zip(self.latitudes, self.departures, shares, strict=True)
        return tuple((lat - north * share, dep - east * share) for lat, dep, share in lines)


def close_traverse(distances: Sequence[float], azimuths: Sequence[float]) -> Closure:
    """Compute a closed traverse: latitude = d cos(azimuth), departure = d sin(azimuth).

    Standard survey practice (any text on closed traverses; from memory); the check values are those of a
    published compass-rule table, see the tests.

    Args:
        distances: length of each line in the order of the walk.
        azimuths: direction of each line in degrees, from the first axis (north, or x) toward the second
            (east, or y).
    """
    latitudes = tuple(d * cos(radians(a)) for d, a in zip(distances, azimuths, strict=True))
    departures = tuple(d * sin(radians(a)) for d, a in zip(distances, azimuths, strict=True))
    return Closure(latitudes, departures, sum(distances), hypot(sum(latitudes), sum(departures)))


def directions(turnings: Sequence[float]) -> tuple[float, ...]:
    """Direction of each side in degrees from the first one, from the turn at each corner in degrees.

    The turn at the first corner is made last and so is not used.
    """
    found = [0.0]
    for turned in turnings[1:]:
        found.append(found[-1] + turned)
    return tuple(found)


def filled(turnings: Sequence[float | None], sense: int) -> tuple[float, ...] | None:
    """All turns of a closed walk, one missing turn found from their sum, 360 degrees (or -360 clockwise).

    None when more than one is missing.
    """
    known = [turned for turned in turnings if turned is not None]
    if len(known) < len(turnings) - 1:
        return None
    rest = 360.0 * sense - sum(known)
    return tuple(rest if turned is None else turned for turned in turnings)
