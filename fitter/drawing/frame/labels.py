"""The marks of parts: on them where they are large enough, else beside them with a leader."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice, pairwise, product
from math import dist

from shapely import Point, STRtree

from fitter.domain.woodwork import Part, PartRole
from fitter.drawing.draft import Draft
from fitter.drawing.frame.beside import point_out
from fitter.drawing.frame.picture import Scene
from fitter.drawing.page import SMALL, Role, Spot, Text
from fitter.drawing.texts import AIR
from fitter.drawing.view import middle

_SHARES = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82)
_SLATS = (PartRole.BACK_SLAT, PartRole.SEAT_SLAT)
_ACROSS = (0.5, 0.25, 0.0, 0.75, 1.0)
_HIGH = 3.6 + 2 * AIR  # a part must be so wide that its mark can stand on it, mm
_ALONG = (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92)
_ASIDE = (0.0, 0.5, -0.5)
_FINE = tuple(n / 64 for n in range(1, 64))
_FINE_ASIDE = tuple(n / 8 for n in range(-7, 8))
_APART = 2.0  # between the dots of two names, mm
_OFF = 0.8  # between a dot and a line, mm
_AROUND = tuple((0.7 * x, 0.7 * y) for x in (-1, 1) for y in (-1, 1))
_SMALL = 0.3  # no leader goes to a smaller face, mm2
_OF_ONE = 3  # of them on one part
_TARGETS = 6  # spots that are tried for a leader
_SHOWS = 2.5  # so much of the edges of a part must be seen for it to be named, mm


@dataclass(frozen=True)
class Names:
    """The marks of parts in a picture.

    Args:
        scene: what is seen.
        rows: the solids that share a mark, by mark, in the order of parts.
    """

    scene: Scene
    rows: dict[str, list[int]]

    def on_wood(self, draft: Draft) -> Names:
        """Write marks on parts where there is room; of slats one in each bay.

        Returns:
            The marks that stand on no part.
        """
        left = {}
        for mark, members in self.rows.items():
            named: set[str] = set()  # bays of slats that have a mark already
            for n in members:
                part = self.scene.parts[self.scene.seen[n].number]
                if (part.role not in _SLATS or part.place not in named) and _on_wood(draft, self.scene, n, mark):
                    named.add(part.place)
            if not named:
                left[mark] = members
        return Names(self.scene, left)

    def beside(self, draft: Draft) -> None:
        """Write each mark once at the end of a leader, with the number of parts that share it."""
        taken: list[Spot] = []
        for mark, members in self.rows.items():
            count = f"{len(members)} × " if len(members) > 1 else ""
            lines = draft.scene().strokes
            every = [spot for n in members for spot in islice(_targets(self.scene, n, lines), _OF_ONE)]
            # Two names that end in one dot would name either part.
            free = [spot for spot in every if all(dist(spot, other) > _APART for other in taken)]
            if (end := point_out(draft, f"{count}{mark}", (free or every)[:_TARGETS])) is not None:
                taken.append(end)


def names(scene: Scene, wanted: Callable[[Part], bool], dashed: Callable[[Part], bool] | None = None) -> Names:
    """Which marks are to be written.

    Args:
        scene: what is seen.
        wanted: which parts are named, if they can be seen.
        dashed: whose hidden edges are drawn too.
    """
    rows: dict[str, list[int]] = {}
    for n, seen in enumerate(scene.seen):
        part = scene.parts[seen.number]
        if wanted(part) and _shows(scene, n, dashed is not None and dashed(part)):
            rows.setdefault(part.mark, []).append(n)
    return Names(scene, rows)


def _shows(scene: Scene, n: int, dashed: bool) -> bool:
    """Whether a part can be seen, or its dashed edges."""
    lines = scene.paper.lines((*scene.seen[n].visible, *(scene.seen[n].hidden if dashed else ())))
    return sum(dist(*line) for line in lines) > _SHOWS and (
        dashed or scene.seen[n].number in scene.foremost(list(_grid(scene, n)))
    )


def _on_wood(draft: Draft, scene: Scene, n: int, mark: str) -> bool:
    """Write a mark on the face of a part, if there is room."""
    number = scene.seen[n].number
    x0, y0, x1, y1 = _frame(scene, n)
    wide = Text((0.0, 0.0), mark, SMALL).width + 2 * AIR
    for across, share, angle in product(_ACROSS, _SHARES, (0.0, 90.0)):
        long, broad = (x1 - x0, y1 - y0) if angle == 0.0 else (y1 - y0, x1 - x0)
        if long < wide or broad < _HIGH:
            continue
        along, aside = wide / 2 + share * (long - wide), _HIGH / 2 + across * (broad - _HIGH)
        spot = (x0 + along, y0 + aside - SMALL / 2) if angle == 0.0 else (x0 + aside + SMALL / 2, y0 + along)
        text = Text(spot, mark, SMALL, angle, 0.5, Role.MARK)
        if set(scene.foremost(text.box)) == {number} and draft.free(text):
            draft.add(text)
            return True
    return False


def _frame(scene: Scene, n: int) -> tuple[float, float, float, float]:
    spots = [scene.paper.at(scene.sight.gaze.at(spot)) for spot in scene.solids[n].spots]
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    return min(xs), min(ys), max(xs), max(ys)


def _targets(scene: Scene, n: int, strokes: STRtree) -> Iterator[Spot]:
    """Spots where a part can be seen, the middle of its largest face first; of a hidden one on its dashed edges.

    Rather where a dot shows nothing else of the picture: no edge of another part, and no dashed one behind it.
    """
    spots, clear = _spots(scene, n, _ALONG, _ASIDE)
    if spots and not clear:
        # A finer grid may find a place that shows all around a dot.
        clear = _spots(scene, n, _FINE, _FINE_ASIDE)[1]
    yield from sorted(clear or spots, key=lambda spot: bool(strokes.query(Point(spot), "dwithin", _OFF).size))
    if not spots:
        seen = scene.seen[n]
        lines = scene.paper.lines(seen.visible or seen.hidden)
        long = sorted(lines, key=lambda line: -round(dist(*line), 3))[:2]
        for share, (a, b) in product((0.5, 0.4, 0.6), long):
            yield a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])


def _spots(scene: Scene, n: int, shares: Sequence[float], asides: Sequence[float]) -> tuple[list[Spot], list[Spot]]:
    """Spots of a grid where a part is seen, and those of them where it is seen all around a dot too."""
    number, grid = scene.seen[n].number, list(_grid(scene, n, shares, asides))
    spots = [spot for spot, there in zip(grid, scene.foremost(grid), strict=True) if there == number]
    around = scene.foremost([(x + dx, y + dy) for x, y in spots for dx, dy in _AROUND])
    size = len(_AROUND)
    whole = [all(there == number for there in around[i : i + size]) for i in range(0, len(around), size)]
    return spots, [spot for spot, is_clear in zip(spots, whole, strict=True) if is_clear]


def _grid(scene: Scene, n: int, shares: Sequence[float] = _ALONG, asides: Sequence[float] = _ASIDE) -> Iterator[Spot]:
    """Spots within the faces of a part that look at the viewer, the largest face first, its middle line first."""
    rings = [[scene.paper.at(scene.sight.gaze.at(spot)) for spot in face] for face in scene.solids[n].faces]
    for ring in sorted(rings, key=lambda ring: -round(_area(ring), 3)):
        if len(ring) == 4 and _area(ring) > _SMALL:
            a, b, c, d = ring
            first, last = (middle(a, b), middle(c, d)) if dist(a, b) < dist(b, c) else (middle(b, c), middle(d, a))
            half = (
                ((d[0] - a[0]) / 2, (d[1] - a[1]) / 2)
                if dist(a, b) >= dist(b, c)
                else ((b[0] - a[0]) / 2, (b[1] - a[1]) / 2)
            )
            for aside, share in product(asides, shares):
                yield (
                    first[0] + share * (last[0] - first[0]) + aside * half[0],
                    first[1] + share * (last[1] - first[1]) + aside * half[1],
                )


def _area(ring: Sequence[Spot]) -> float:
    """Positive where a ring runs anticlockwise, as faces that look at the viewer do."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise((*ring, ring[0]))) / 2
