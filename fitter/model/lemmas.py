"""What the solver learns about a proposed layout: each lemma holds for every layout, and rules this one out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import z3

from fitter.model import bays
from fitter.model.arrangement import Choice, faces
from fitter.model.encoding import Corners, Encoding
from fitter.model.frames import Frame
from fitter.model.pieces import Piece, pieces
from fitter.model.separation import Atom, Ground, Rect, atoms, facing, is_clear
from fitter.model.walkways import Bar, Walkway, walkways
from rooms.lengths import Length
from rooms.room import Room

SHORT = 12  # bits of a coefficient at first: the solver is fastest on small numbers
LONG = 36


@dataclass(frozen=True)
class _Seen:
    """A rectangle of the proposed layout."""

    name: int
    corners: Corners
    rect: Rect


def _reach(room: Room) -> int:
    """Twice the way round the room's bounding box: farther than any place from any piece, in units."""
    xs, ys = [p.x.units for p in room.outline], [p.y.units for p in room.outline]
    return 4 * (max(xs) - min(xs) + max(ys) - min(ys))


class Lemmas:
    """Checks proposed layouts exactly, and hands the solver a clause for each fault found.

    The geometry is learned only where a proposal meets it: most pieces of a room never matter.
    """

    def __init__(self, encoding: Encoding) -> None:
        self.encoding = encoding
        room = encoding.project.room
        self.pieces: tuple[Piece, ...] = pieces(room)
        self.walkways: tuple[Walkway, ...] = walkways(room)
        self.left = [z3.Bool(f"left of {n}") for n in range(len(self.walkways))]
        self.known: set[int] = set()
        self.grounds: dict[tuple[object, ...], Ground] = {}
        self.splits: dict[tuple[object, ...], tuple[list[float], int]] = {}
        self.reach = _reach(room) // encoding.sizes.mark.units
        for walkway in self.walkways:
            if walkway.blocked:
                encoding.add(z3.Not(encoding.switches[f"route:{walkway.route.name}"]))

    def geometry(self, model: z3.ModelRef, choice: Choice, off: frozenset[str]) -> bool:
        """Learn where a proposal stands on forbidden ground; False if it stands well.

        Args:
            model: the proposal.
            choice: its choices.
            off: requirement ids that are switched off.
        """
        e = self.encoding
        frame = e.frames[choice.frame]
        self._meet(choice.frame)
        feet = self._seen(model, e.rects, 0)
        legs = self._seen(model, e.legs, 10) if "legroom" not in off and e.sizes.legroom else []
        found = False
        for n, piece in enumerate(self.pieces):
            if off.intersection(piece.facts):
                continue
            switches = [e.switches[fact] for fact in piece.facts]
            for seen in feet:
                found |= self._learn(choice, ("p", n), seen, self._ground(choice.frame, n, piece.seats), switches)
            if piece.legs is not None:
                switches.append(e.switches["legroom"])
                for seen in legs:
                    ground = self._ground(choice.frame, n, piece.legs)
                    found |= self._learn(choice, ("p", n), seen, ground, switches)
        for n, walkway in enumerate(self.walkways):
            if f"route:{walkway.route.name}" not in off:
                found |= self._route(choice, frame, n, walkway, feet)
        return found

    def timber(self, model: z3.ModelRef, choice: Choice, *, lengths: bool) -> bool:
        """Learn the exact post counts of a proposal, and its different rail lengths; False if both were known."""
        e = self.encoding
        lines, pairs = faces(choice, e.sizes)
        found = False
        for n, (length, module_lines) in enumerate(lines):
            ways = bays.splits(length, module_lines, e.sizes.post, e.sizes.span)
            count = len(ways[0]) if ways else len(module_lines) + 1
            if e.value(model, e.lines[n]) != count:
                e.add(z3.Implies(z3.And(*self._line(choice, n)), e.lines[n] == count))
                found = True
        if lengths and not found:
            split = bays.choose(lines, e.sizes.post, e.sizes.span, pairs)
            different = 0
            if split is not None:
                rails = [bays.rails(lines[n][0], split[n], e.sizes.post) for n in range(len(lines))]
                different = len({length for line in rails for length in line})
            if e.value(model, e.lengths) != different:
                both = [*self._line(choice, 1), *(self._line(choice, 3) if choice.side else [])]
                e.add(z3.Implies(z3.And(*both), e.lengths == different))
                found = True
        return found

    def _line(self, choice: Choice, line: int) -> list[z3.BoolRef]:
        """The choices that a rail line's bays depend on."""
        e = self.encoding
        count = e.ints["main"] == choice.main if line < 2 else e.ints["side"] == choice.side
        terms = [e.option[choice.option], count]
        if line % 2:
            terms.append(e.straight if choice.corner is None else e.corner[choice.corner])
        return terms

    def _meet(self, frame: int) -> None:
        """On first meeting a frame, learn the half-planes round the room at once: they always matter."""
        if frame in self.known:
            return
        self.known.add(frame)
        e = self.encoding
        for n, piece in enumerate(self.pieces):
            if piece.half_plane:
                ground = self._ground(frame, n, piece.seats)
                switches = [e.switches[fact] for fact in piece.facts]
                for corners in e.rects[:2]:
                    self._clause(frame, corners, atoms(ground, (), SHORT), switches, [])

    def _seen(self, model: z3.ModelRef, corners: tuple[Corners, ...], first: int) -> list[_Seen]:
        e = self.encoding
        return [
            _Seen(first + n, c, e.rect(model, c))
            for n, c in enumerate(corners)
            if c.when is None or z3.is_true(model.eval(c.when, model_completion=True))
        ]

    def _ground(self, frame: int, piece: int, keep: Length) -> Ground:
        key = (frame, piece, keep)
        if key not in self.grounds:
            p, f = self.pieces[piece], self.encoding.frames[frame]
            points = tuple(f.fine(point) for point in p.points)
            self.grounds[key] = Ground(points, keep.units * f.scale, f.mark, self.reach, p.half_plane)
        return self.grounds[key]

    def _learn(
        self, choice: Choice, thing: tuple[object, ...], seen: _Seen, ground: Ground, switches: list[z3.BoolRef]
    ) -> bool:
        if is_clear(seen.rect, ground):
            return False
        self._exclude(choice.frame, thing, seen, ground, switches, [])
        return True

    def _exclude(
        self,
        frame: int,
        thing: tuple[object, ...],
        seen: _Seen,
        ground: Ground,
        switches: list[z3.BoolRef],
        escapes: list[z3.BoolRef],
    ) -> None:
        """A clause that this rectangle breaks.

        Where the relaxed ways would let it pass, the sector that it faces is cut and the coefficients are made
        longer; in the end its very place is forbidden.
        """
        key = (frame, thing, seen.name, ground.keep)
        splits, bits = self.splits.setdefault(key, ([], SHORT))
        ways = atoms(ground, splits, bits)
        while any(way.holds(seen.rect) for way in ways) and bits <= LONG:
            bits += SHORT
            splits = [*splits, facing(seen.rect, ground)]
            self.splits[key] = (splits, bits)
            ways = atoms(ground, splits, bits)
        if any(way.holds(seen.rect) for way in ways):
            c, r = seen.corners, seen.rect
            elsewhere = z3.Or(c.x0 != r.x0, c.y0 != r.y0, c.x1 != r.x1, c.y1 != r.y1)
            self._clause(frame, c, (), switches, [*escapes, elsewhere])
        else:
            self._clause(frame, seen.corners, ways, switches, escapes)

    def _clause(
        self,
        frame: int,
        corners: Corners,
        ways: tuple[Atom, ...],
        switches: list[z3.BoolRef],
        escapes: list[z3.BoolRef],
    ) -> None:
        e = self.encoding
        given = [e.frame[frame], *switches, *([corners.when] if corners.when is not None else [])]
        e.add(z3.Or(*(z3.Not(term) for term in given), *escapes, *(corners.atom(way) for way in ways)))

    def _route(self, choice: Choice, frame: Frame, n: int, walkway: Walkway, feet: list[_Seen]) -> bool:
        """Learn what bars the route on either bank; False if the furniture keeps clear of one of them."""
        near = [list(self._near(choice, frame, (n, side), walkway.banks[side], feet)) for side in (0, 1)]
        if not all(near):
            return False
        switch = self.encoding.switches[f"route:{walkway.route.name}"]
        for side, hits in enumerate(near):
            # Furniture of the left bank must keep clear of the right one, and the other way about.
            escape = z3.Not(self.left[n]) if side == 1 else self.left[n]
            for thing, seen, ground in hits:
                self._exclude(choice.frame, thing, seen, ground, [switch], [escape])
        return True

    def _near(
        self, choice: Choice, frame: Frame, bank: tuple[int, int], bars: tuple[Bar, ...], feet: list[_Seen]
    ) -> Iterator[tuple[tuple[object, ...], _Seen, Ground]]:
        for b, bar in enumerate(bars):
            key = (choice.frame, "bar", *bank, b)
            if key not in self.grounds:
                points = tuple(frame.fine(point) for point in bar.points)
                self.grounds[key] = Ground(
                    points, bar.keep.units * frame.scale, frame.mark, self.reach, one_sided=bar.wall
                )
            ground = self.grounds[key]
            for seen in feet:
                if not is_clear(seen.rect, ground):
                    yield ("bar", *bank, b), seen, ground
