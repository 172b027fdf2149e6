"""What the solver learns about a proposed layout: each lemma holds for every layout, and rules this one out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import z3

from fitter.model import bays
from fitter.model.arrangement import Choice, Place, faces
from fitter.model.encoding import Corners, Encoding
from fitter.model.frames import around
from fitter.model.pieces import Piece, pieces
from fitter.model.separation import Atom, Ground, Marks, Rect, atoms, facing, is_clear
from fitter.model.walkways import Bar, Walkway, walkways
from rooms.lengths import Length
from rooms.room import Room

SHORT = 8  # bits of a coefficient at first: the solver is fastest on small numbers
LONG = 36


@dataclass(frozen=True)
class Seen:
    """A rectangle of the proposed layout."""

    name: int
    corners: Corners
    rect: Rect

    def moved(self, dx: Marks, dy: Marks) -> Seen:
        """The same rectangle elsewhere."""
        return Seen(self.name, self.corners, self.rect.moved(dx, dy))


def _elsewhere(seen: Seen) -> z3.BoolRef:
    """That a rectangle is not just where it was seen."""
    pairs = zip((seen.corners.x0, seen.corners.y0, seen.corners.x1, seen.corners.y1), seen.rect, strict=True)
    return z3.Or(*(term != value for term, value in pairs))


@dataclass(frozen=True)
class Forbidden:
    """What every frame of a room must keep clear of."""

    pieces: tuple[Piece, ...]
    walkways: tuple[Walkway, ...]

    @classmethod
    def of(cls, room: Room) -> Forbidden:
        """The forbidden ground of a room, worked out once for all frames."""
        return cls(pieces(room), walkways(room))


Hit = tuple[tuple[object, ...], Seen, Ground]


class Lemmas:
    """Checks proposed layouts exactly, and hands the solver a clause for each fault found.

    The geometry is learned only where a proposal meets it: most pieces of a room never matter.
    """

    def __init__(self, encoding: Encoding, ground: Forbidden) -> None:
        self.encoding = encoding
        self.pieces, self.walkways = ground.pieces, ground.walkways
        self.left = [z3.Bool(f"left of {n}") for n in range(len(self.walkways))]
        self.grounds: dict[tuple[object, ...], Ground] = {}
        self.splits: dict[tuple[object, ...], tuple[list[float], int]] = {}
        # Farther than any place from any piece, also while a wall is switched off.
        self.reach = 4 * around(encoding.project.room) // encoding.sizes.mark.units
        for walkway in self.walkways:
            if walkway.blocked:
                encoding.add(z3.Not(encoding.switches[f"route:{walkway.route.name}"]))
        self._walls()

    def seen(self, choice: Choice) -> tuple[list[Seen], list[Seen]]:
        """The footprint and the leg room of a proposal."""
        e, place = self.encoding, Place(choice, self.encoding.sizes)
        feet = zip(e.rects, place.footprint(), strict=False)
        legs = zip(e.legs, place.legroom(), strict=False) if e.sizes.legroom else ()
        return (
            [Seen(n, corners, place.rect(*box)) for n, (corners, box) in enumerate(feet)],
            [Seen(10 + n, corners, place.rect(*box)) for n, (corners, box) in enumerate(legs)],
        )

    def learn(self, feet: list[Seen], legs: list[Seen], off: frozenset[str]) -> bool:
        """Learn where a proposal stands on forbidden ground; False if it stands well.

        Args:
            feet: its footprint.
            legs: its leg room.
            off: requirement ids that are switched off.
        """
        found = False
        for thing, seen, ground, switches in self._trodden(feet, legs, off):
            self._exclude(thing, seen, ground, switches, [])
            found = True
        for n, near in self._barred(feet, off):
            self._open(n, near)
            found = True
        return found

    def stands(self, feet: list[Seen], legs: list[Seen], off: frozenset[str]) -> bool:
        """Whether a proposal stands well, decided exactly; nothing is learned."""
        trodden = next(self._trodden(feet, legs, off), None)
        return trodden is None and next(self._barred(feet, off), None) is None

    def _trodden(
        self, feet: list[Seen], legs: list[Seen], off: frozenset[str]
    ) -> Iterator[tuple[tuple[object, ...], Seen, Ground, list[z3.BoolRef]]]:
        """Each rectangle that is too near to a piece of forbidden ground, with the switches concerned."""
        e = self.encoding
        legs = [] if "legroom" in off else legs
        for n, piece in enumerate(self.pieces):
            if off.intersection(piece.facts):
                continue
            switches = [e.switches[fact] for fact in piece.facts]
            ground = self._ground(n, piece.seats)
            for seen in feet:
                if not is_clear(seen.rect, ground):
                    yield ("p", n), seen, ground, switches
            if piece.legs is not None:
                ground = self._ground(n, piece.legs)
                for seen in legs:
                    if not is_clear(seen.rect, ground):
                        yield ("p", n), seen, ground, [*switches, e.switches["legroom"]]

    def _barred(self, feet: list[Seen], off: frozenset[str]) -> Iterator[tuple[int, list[list[Hit]]]]:
        """Each route that the furniture bars, with what it stands too near to on either bank."""
        for n, walkway in enumerate(self.walkways):
            if f"route:{walkway.route.name}" not in off:
                near = [list(self._near((n, side), walkway.banks[side], feet)) for side in (0, 1)]
                if all(near):
                    yield n, near

    def span(self, choice: Choice) -> bool:
        """Learn that a proposal's rails cannot keep the span; False if they can."""
        e = self.encoding
        found = False
        for n, line in enumerate(faces(choice, e.sizes)[0]):
            if not bays.splits(line, e.sizes.post, e.sizes.span):
                e.add(z3.Not(z3.And(e.switches["span"], *self._line(choice, n))))
                found = True
        return found

    def timber(self, model: z3.ModelRef, choice: Choice, *, lengths: bool) -> bool:
        """Learn the exact post counts of a proposal, and its different rail lengths; False if both were known."""
        e = self.encoding
        lines, pairs = faces(choice, e.sizes)
        found = False
        for n, line in enumerate(lines):
            count = len(bays.splits(line, e.sizes.post, e.sizes.span)[0])
            if e.value(model, e.lines[n]) != count:
                e.add(z3.Implies(z3.And(*self._line(choice, n)), e.lines[n] == count))
                found = True
        if lengths and not found:
            chosen = bays.choose(lines, e.sizes.post, e.sizes.span, pairs) or ()
            rails = [bays.rails(line.length, split, e.sizes.post) for line, split in zip(lines, chosen, strict=True)]
            different = len({length for line in rails for length in line})
            if e.value(model, e.lengths) != different:
                both = [*self._line(choice, 1), *(self._line(choice, 3) if choice.side else [])]
                e.add(z3.Implies(z3.And(*both), e.lengths == different))
                found = True
        return found

    def _line(self, choice: Choice, line: int) -> list[z3.BoolRef]:
        """The choices that a rail line's bays depend on."""
        e = self.encoding
        count = e.terms["main"] == choice.main if line < 2 else e.terms["side"] == choice.side
        terms = [e.option[choice.option], count]
        if line % 2:
            terms.append(e.straight if choice.corner is None else e.corner[choice.corner])
        return terms

    def _walls(self) -> None:
        """The half-planes round the room are known from the start: they always matter."""
        for n, piece in enumerate(self.pieces):
            if piece.half_plane:
                switches = [self.encoding.switches[fact] for fact in piece.facts]
                for corners in self.encoding.rects[:2]:
                    self._clause(corners, atoms(self._ground(n, piece.seats), (), SHORT), switches, [])

    def _ground(self, piece: int, keep: Length) -> Ground:
        if (piece, keep) not in self.grounds:
            p, f = self.pieces[piece], self.encoding.frame
            points = tuple(f.fine(point) for point in p.points)
            self.grounds[piece, keep] = Ground(points, keep.units * f.scale, f.mark, self.reach, p.half_plane)
        return self.grounds[piece, keep]

    def _exclude(
        self,
        thing: tuple[object, ...],
        seen: Seen,
        ground: Ground,
        switches: list[z3.BoolRef],
        escapes: list[z3.BoolRef],
    ) -> None:
        """A clause that this rectangle breaks.

        Where the relaxed ways would let it pass, the sector that it faces is cut and the coefficients are made
        longer; in the end its very place is forbidden.
        """
        key = (thing, seen.name, ground.keep)
        splits, bits = self.splits.setdefault(key, ([], SHORT))
        ways = atoms(ground, splits, bits)
        while any(way.holds(seen.rect) for way in ways) and bits <= LONG:
            bits += SHORT
            splits = [*splits, facing(seen.rect, ground)]
            self.splits[key] = (splits, bits)
            ways = atoms(ground, splits, bits)
        if any(way.holds(seen.rect) for way in ways):
            if not self._off_marks(seen):
                self._clause(seen.corners, (), switches, [*escapes, _elsewhere(seen)])
        else:
            self._clause(seen.corners, ways, switches, escapes)

    def _off_marks(self, seen: Seen) -> bool:
        """A place between marks that no clause rules out: learn that places are whole marks there."""
        across = self.encoding.whole(seen.corners.x0, seen.rect.x0)
        return self.encoding.whole(seen.corners.y0, seen.rect.y0) or across

    def _clause(
        self,
        corners: Corners,
        ways: tuple[Atom, ...],
        switches: list[z3.BoolRef],
        escapes: list[z3.BoolRef],
    ) -> None:
        e = self.encoding
        given = [*switches, *([corners.when] if corners.when is not None else [])]
        e.add(z3.Or(*(z3.Not(term) for term in given), *escapes, *(corners.atom(way) for way in ways)))

    def _open(self, n: int, near: list[list[Hit]]) -> None:
        """Learn that furniture of the left bank keeps clear of the right one, and the other way about."""
        switch = self.encoding.switches[f"route:{self.walkways[n].route.name}"]
        for side, hits in enumerate(near):
            escape = z3.Not(self.left[n]) if side == 1 else self.left[n]
            for thing, seen, ground in hits:
                self._exclude(thing, seen, ground, [switch], [escape])

    def _near(self, bank: tuple[int, int], bars: tuple[Bar, ...], feet: list[Seen]) -> Iterator[Hit]:
        frame = self.encoding.frame
        for b, bar in enumerate(bars):
            key = ("bar", *bank, b)
            if key not in self.grounds:
                points = tuple(frame.fine(point) for point in bar.points)
                self.grounds[key] = Ground(
                    points, bar.keep.units * frame.scale, frame.mark, self.reach, one_sided=bar.wall
                )
            ground = self.grounds[key]
            for seen in feet:
                if not is_clear(seen.rect, ground):
                    yield ("bar", *bank, b), seen, ground
