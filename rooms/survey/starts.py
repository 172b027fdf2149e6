"""Rough shapes that the readings allow, from which the adjustment sets out.

An outline walked by turns has one; an outline of taped lengths can lie with each triangle on either side of
its base, so all of these are tried.
"""

from __future__ import annotations

from cmath import phase, rect
from collections.abc import Container, Iterator
from math import cos, degrees, pi, radians, sin, sqrt

import numpy as np

from rooms.survey.network import Network, Points
from rooms.survey.traverse import close_traverse, directions, filled

_BEAM = 256
"""Shapes kept at each step of placing corners; the best ones by misfit."""
_SCATTERED = 24
"""Rough shapes tried where no way of building one up is known."""
_SMALL = 12
"""Corners up to which these numbers hold; with more of them fewer shapes are tried, so that work stays in bounds."""

Placed = dict[int, complex]
Links = dict[int, dict[int, float]]


def starts(net: Network, sense: int) -> list[Points]:
    """Rough shapes in a fixed order; `sense` is 1 for an anticlockwise walk, -1 for a clockwise one."""
    whole = filled(_turnings(net), sense)
    rough = _placed(net) if whole is None else [_walked(net, whole)]
    usable = [points for points in rough if net.measurable(points)]
    if usable and (not net.bends or _lost(net) <= 1):
        return usable
    # With two sides to seek, a tie and the turns can make two triangles, and one walk shows only one.
    return [*usable, *(_scattered(net, sense, seed) for seed in range(_share(net, _SCATTERED)))]


def _share(net: Network, most: int) -> int:
    """How many shapes of so many corners may be tried: all of them up to `_SMALL` corners, at least four."""
    return most if net.count <= _SMALL else max(4, most * _SMALL // net.count)


def _lost(net: Network) -> int:
    """How many sides were not taped."""
    return sum(net.distance(k, (k + 1) % net.count) is None for k in range(net.count))


def _turnings(net: Network) -> tuple[float | None, ...]:
    turned = (net.turned(k) for k in range(net.count))
    return tuple(None if turn is None else degrees(turn) for turn in turned)


def _walked(net: Network, turnings: tuple[float, ...]) -> Points:
    """The outline walked by turns and sides; missing sides close it, and the rest is balanced."""
    headings = directions(turnings)
    sides = [net.distance(k, (k + 1) % net.count) for k in range(net.count)]
    closure = close_traverse(_sides_closed(sides, headings), headings)
    corners = np.cumsum([complex(x, y) for x, y in closure.balanced])
    return np.concatenate([[0j], corners[:-1]])


def _sides_closed(sides: list[float | None], headings: tuple[float, ...]) -> list[float]:
    units = [complex(cos(radians(heading)), sin(radians(heading))) for heading in headings]
    known = [side for side in sides if side is not None]
    lost = [k for k, side in enumerate(sides) if side is None]
    if not lost:
        return known
    gap = -sum(side * unit for side, unit in zip(sides, units, strict=True) if side is not None)
    wanted = np.array([[units[k].real for k in lost], [units[k].imag for k in lost]])
    closing = np.linalg.lstsq(wanted, np.array([gap.real, gap.imag]), rcond=None)[0]
    usual = sum(known) / len(known) if known else 1.0
    found = {k: float(size) if size > usual / 1000 else usual for k, size in zip(lost, closing, strict=True)}
    return [found[k] if side is None else side for k, side in enumerate(sides)]


def _scattered(net: Network, sense: int, seed: int) -> Points:
    """A round outline of about the right size, roughened; the same for the same seed."""
    rough = np.random.default_rng(seed).uniform(-0.5, 0.5, (2, net.count))
    size = max(net.lengths, default=1.0) * net.count / (2 * pi)
    angles = 2 * pi * sense * (np.arange(net.count) + 0.8 * rough[0]) / net.count
    return np.asarray(size * (1 + 1.2 * rough[1]) * np.exp(1j * angles))


def generic(net: Network) -> Points:
    """A shape in general position, in which a system fixes as much as it ever can."""
    return _scattered(net, 1, 0)


def _placed(net: Network) -> list[Points]:
    """All shapes, best first, that come of placing one corner after another by two lengths or a turn."""
    links = _links(net)
    for first, second in net.spans:
        order = _order(net, links, first, second)
        if order is not None:
            return _grown(net, links, order) or _grown(net, links, order, crossing=True)
    return []


def _links(net: Network) -> Links:
    """Known distances: those taped, and those across chains of sides whose turns between are known."""
    links: Links = {k: {} for k in range(net.count)}
    for first in range(net.count):
        for last, size in _chains(net, first):
            links[first][last] = links[last][first] = size
    for (i, j), length in zip(net.spans, net.lengths, strict=True):
        links[i][j] = links[j][i] = length
    return links


def _chains(net: Network, first: int) -> Iterator[tuple[int, float]]:
    here, heading = 0j, 0.0
    for step in range(net.count - 1):
        corner = (first + step) % net.count
        turn = net.turned(corner) if step else 0.0
        side = net.distance(corner, (corner + 1) % net.count)
        if turn is None or side is None:
            return
        heading += turn
        here += side * complex(cos(heading), sin(heading))
        if step:
            yield (corner + 1) % net.count, abs(here)


def _order(net: Network, links: Links, first: int, second: int) -> list[int] | None:
    """An order in which every corner can be placed from those before it; None if there is none."""
    placed: dict[int, bool] = {}
    led: dict[int, bool] = {}
    held = dict.fromkeys(range(net.count), 0)
    for corner in (first, second):
        _place(net, links, corner, placed, led, held)
    while len(placed) < net.count:
        ready = _ready(placed, led, held)
        if ready is None:
            return None
        _place(net, links, ready, placed, led, held)
    return list(placed)


def _place(
    net: Network, links: Links, corner: int, placed: dict[int, bool], led: dict[int, bool], held: dict[int, int]
) -> None:
    """Note what a corner just placed leads to: `led` by a turn, `held` by so many lengths."""
    placed[corner] = True
    for other in links[corner]:
        held[other] += 1
    # A turn and a side can lead only to a corner next door or next but one.
    for near in ((corner + step) % net.count for step in (-2, -1, 1, 2)):
        led[near] = _polar(net, near, placed) is not None


def _ready(placed: dict[int, bool], led: dict[int, bool], held: dict[int, int]) -> int | None:
    """The next corner to place: the first that a turn leads to, else the one that most lengths hold."""
    rest = [k for k in held if k not in placed]
    turned = next((k for k in rest if led.get(k)), None)
    if turned is not None:
        return turned
    most = max(rest, key=lambda k: (held[k], -k))
    return most if held[most] >= 2 else None


def _polar(net: Network, corner: int, placed: Container[int]) -> int | None:
    """The step (1 or -1) to a placed neighbour whose own turn and side lead here."""
    for step in (-1, 1):
        near, far = (corner + step) % net.count, (corner + 2 * step) % net.count
        told = net.turned(near) is not None and net.distance(near, corner) is not None
        if told and near in placed and far in placed:
            return step
    return None


def _grown(net: Network, links: Links, order: list[int], *, crossing: bool = False) -> list[Points]:
    first, second = order[:2]
    shapes: list[tuple[float, Placed]] = [(0.0, {first: 0j, second: complex(links[first][second])})]
    for corner in order[2:]:
        grown = [
            (score + _strain(net, wider, corner), wider)
            for score, shape in shapes
            for wider in ({**shape, corner: place} for place in _places(net, links, shape, corner))
            if crossing or not _crosses(wider, corner, net.count)
        ]
        shapes = sorted(grown, key=lambda pair: pair[0])[: _share(net, _BEAM)]
    return [np.array([shape[k] for k in range(net.count)]) for _, shape in shapes]


def _places(net: Network, links: Links, shape: Placed, corner: int) -> tuple[complex, ...]:
    step = _polar(net, corner, shape)
    if step is not None:
        near, far = (corner + step) % net.count, (corner + 2 * step) % net.count
        back, turn = shape[near] - shape[far], net.turned(near) or 0.0
        reach = (net.distance(near, corner) or 0.0) / abs(back)
        return (shape[near] + reach * back * complex(cos(turn), -step * sin(turn)),)
    held = [other for other in links[corner] if other in shape]
    pairs = [(a, b) for k, a in enumerate(held) for b in held[k + 1 :]]
    arms = [_met(shape[a], links[corner][a], shape[b], links[corner][b]) for a, b in pairs]
    return max(arms, key=lambda places: abs(places[0] - places[1]))


def _met(a: complex, from_a: float, b: complex, from_b: float) -> tuple[complex, complex]:
    """Where two circles meet, or come nearest to it."""
    base = abs(b - a) or 1.0
    along = (base**2 + from_a**2 - from_b**2) / (2 * base)
    height = sqrt(max(from_a**2 - along**2, 0.0))
    unit = (b - a) / base
    return a + unit * complex(along, height), a + unit * complex(along, -height)


def _strain(net: Network, shape: Placed, corner: int) -> float:
    """Square sum of the misfits that placing a corner settles."""
    total = 0.0
    for i, j in (net.spans[k] for k in net.held[corner]):
        if i in shape and j in shape:
            total += ((abs(shape[i] - shape[j]) - (net.distance(i, j) or 0.0)) / net.error) ** 2
    for k in ((corner + step) % net.count for step in (-1, 0, 1)):
        turn, trio = net.turned(k), ((k - 1) % net.count, k, (k + 1) % net.count)
        if turn is not None and all(other in shape for other in trio):
            before, here, after = (shape[other] for other in trio)
            total += degrees(phase((after - here) * (here - before).conjugate() * rect(1.0, -turn))) ** 2
    return total


def _crosses(shape: Placed, corner: int, count: int) -> bool:
    """Whether a side at the corner just placed runs through another side."""
    sides = [(k, (k + 1) % count) for k in range(count) if k in shape and (k + 1) % count in shape]
    return any(
        _through(shape[a], shape[b], shape[c], shape[d])
        for a, b in sides
        if corner in (a, b)
        for c, d in sides
        if not {a, b} & {c, d}
    )


def _through(a: complex, b: complex, c: complex, d: complex) -> bool:
    def left(p: complex, q: complex, r: complex) -> bool:
        return ((q - p).conjugate() * (r - p)).imag > 0

    return left(a, b, c) != left(a, b, d) and left(c, d, a) != left(c, d, b)
