"""What the solver learns about a proposed layout: each lemma holds for every layout, and rules this one out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import z3

from fitter.model.arrangement import Choice, Place
from fitter.model.encoding import Encoding
from fitter.model.frames import around
from fitter.model.pieces import Piece, pieces
from fitter.model.quick import either, never
from fitter.model.rail_lines import Flat, RailLine
from fitter.model.separation import Ground, Marks, Rect, atoms, faced, facing, is_clear
from fitter.model.terms import Corners
from fitter.model.walkways import Bar, Walkway, walkways
from rooms.lengths import Length
from rooms.room import Point, Room

SHORT = 6  # bits of a coefficient at first: the solver is fastest on small numbers
LONG = 40


@dataclass(frozen=True)
class Seen:
    """A rectangle of the proposed layout."""

    name: object
    corners: Corners
    rect: Rect

    def moved(self, dx: Marks, dy: Marks) -> Seen:
        """The same rectangle elsewhere."""
        return Seen(self.name, self.corners, self.rect.moved(dx, dy))


def kind_of(choice: Choice) -> Kind:
    """What makes layouts different, wherever they stand and however they end."""
    corners = (choice.corner, choice.right_corner, choice.left_corner)
    return (choice.main, choice.right, choice.left, *corners)


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


@dataclass(frozen=True)
class Proposed:
    """The rectangles of a proposal that may stand on forbidden ground.

    Args:
        seats: the footprint.
        legs: the leg room.
        feet: what stands on the floor wherever posts are put: ends and corner posts; empty where nothing asks for it.
        corner: the deck corner.
        kind: what it is, but for its ends and its place.
    """

    seats: tuple[Seen, ...]
    legs: tuple[Seen, ...]
    feet: tuple[Seen, ...]
    corner: Seen
    kind: Kind

    def moved(self, dx: Marks, dy: Marks) -> Proposed:
        """The same proposal elsewhere."""
        seats, legs, feet = (
            tuple(seen.moved(dx, dy) for seen in group) for group in (self.seats, self.legs, self.feet)
        )  # fmt: skip
        return Proposed(seats, legs, feet, self.corner.moved(dx, dy), self.kind)


@dataclass(frozen=True)
class Told:
    """A layout that was told already: where its deck corner was, and what is the same."""

    kind: Kind
    ground: Ground
    same: tuple[z3.BoolRef, ...]


Kind = tuple[object, ...]
Thing = tuple[object, ...]
Hit = tuple[Thing, Seen, Ground]


class Lemmas:
    """Checks proposed layouts exactly, and hands the solver a clause for each fault found.

    The geometry is learned only where a proposal meets it: most pieces of a room never matter.
    """

    def __init__(self, encoding: Encoding, ground: Forbidden) -> None:
        self.encoding = encoding
        self.left = [z3.Bool(f"left of {n}") for n in range(len(ground.walkways))]
        self.grounds: dict[Thing, Ground] = {}
        self.splits: dict[Thing, tuple[list[float], int]] = {}
        # Farther than any place from any piece, also while a wall is switched off.
        self.reach = 4 * around(encoding.project.room) // encoding.sizes.mark.units
        self.told: list[Told] = []
        self.take(ground)
        self._walls()

    def take(self, ground: Forbidden, grade: tuple[str, int] | None = None) -> None:
        """Keep clear of other ground from now on, which differs in how far one stays off things.

        Args:
            ground: with the same routes and pieces.
            grade: names it, by what differs and how much; None for that of the project.
        """
        self.grade, self.pieces, self.walkways = grade, ground.pieces, ground.walkways
        self.low = tuple(n for n, piece in enumerate(self.pieces) if piece.feet_only)
        for walkway in self.walkways:
            if walkway.blocked:
                self.encoding.add(z3.Not(self.encoding.switches[f"route:{walkway.route.name}"]))

    def proposed(self, place: Place) -> Proposed:
        """The rectangles of a proposal."""
        e = self.encoding
        seats = tuple(Seen(name, e.feet[name], place.rect(box)) for name, box in place.footprint().items())
        legs = tuple(Seen(("legs", name), e.legs[name], place.rect(box)) for name, box in place.legroom().items())
        corner = Seen("deck corner", Corners(e.x, e.y, e.x, e.y), place.rect((0, 0, 0, 0)))
        feet = tuple(self._standing(place)) if self.low else ()
        return Proposed(seats, legs if e.sizes.legroom else (), feet, corner, kind_of(place.choice))

    def learn(self, proposed: Proposed, off: frozenset[str]) -> bool:
        """Learn where a proposal stands on forbidden ground; False if it stands well.

        Args:
            proposed: its rectangles.
            off: requirement ids that are switched off.
        """
        found = False
        for thing, seen, ground, switches in self._trodden(proposed, off):
            self._clause(switches, self._ways(thing, seen, ground), seen.corners.when)
            found = True
        for n, near in self._barred(proposed.seats, off):
            self._open(n, near)
            found = True
        for n, told in self._repeated(proposed):
            ways = self._ways(("told", n), proposed.corner, told.ground)
            self._clause(list(told.same), ways, None)
            found = True
        return found

    def keep_off(self, choice: Choice, spot: Point, keep: Length, same: list[z3.BoolRef]) -> None:
        """Ask that the deck corner of layouts like a choice lies farther than `keep` from a place, from now on."""
        frame = self.encoding.frame
        fine = keep.units * frame.scale + 1
        self.told.append(Told(kind_of(choice), Ground((frame.fine(spot),), fine, frame.mark, self.reach), tuple(same)))

    def _repeated(self, proposed: Proposed) -> Iterator[tuple[int, Told]]:
        for n, told in enumerate(self.told):
            if told.kind == proposed.kind and not is_clear(proposed.corner.rect, told.ground):
                yield n, told

    def stands(self, proposed: Proposed, off: frozenset[str]) -> bool:
        """Whether a proposal stands well, decided exactly; nothing is learned."""
        faults = (self._trodden(proposed, off), self._barred(proposed.seats, off), self._repeated(proposed))
        return all(next(fault, None) is None for fault in faults)

    def _trodden(
        self, proposed: Proposed, off: frozenset[str]
    ) -> Iterator[tuple[Thing, Seen, Ground, list[z3.BoolRef]]]:
        """Each rectangle that is too near to a piece of forbidden ground, with the switches concerned."""
        e = self.encoding
        legs = () if "legroom" in off else proposed.legs
        for n, piece in enumerate(self.pieces):
            if off.intersection(piece.facts):
                continue
            switches = [e.switches[fact] for fact in piece.facts]
            ground = self._ground(n, piece.seats)
            for seen in proposed.feet if piece.feet_only else proposed.seats:
                if not is_clear(seen.rect, ground):
                    yield ("p", n), seen, ground, switches
            if piece.legs is not None:
                ground = self._ground(n, piece.legs)
                for seen in legs:
                    if not is_clear(seen.rect, ground):
                        yield ("p", n), seen, ground, [*switches, e.switches["legroom"]]

    def _barred(self, seats: tuple[Seen, ...], off: frozenset[str]) -> Iterator[tuple[int, list[list[Hit]]]]:
        """Each route that the furniture bars, with what it stands too near to on either bank."""
        for n, walkway in enumerate(self.walkways):
            if f"route:{walkway.route.name}" not in off:
                near = [list(self._near((n, side), walkway.banks[side], seats)) for side in (0, 1)]
                if all(near):
                    yield n, near

    def blocked(self, place: Place, off: frozenset[str]) -> dict[int, dict[int, list[Hit]]]:
        """Module lines that cannot carry a post, by rail line and place along it: low things lie there."""
        found: dict[int, dict[int, list[Hit]]] = {}
        for number, line in enumerate(place.lines if self.low else ()):
            for at in line.clear.lines:
                if lying := self._lying(place, line, line.post(at, place.sizes.post), off):
                    found.setdefault(number, {})[at] = lying
        return found

    def unsplit(self, place: Place, off: frozenset[str]) -> dict[int, dict[int, list[Hit]]]:
        """Module lines at which a run cannot be split, by rail line and number: low things lie under a post there."""
        found: dict[int, dict[int, list[Hit]]] = {}
        post = place.sizes.post
        for n, line in enumerate(place.lines if self.low else ()):
            for k in place.spines[n // 2].may:
                for low in line.beside(k, post):
                    if lying := self._lying(place, line, line.strip(low, low + post, post), off):
                        found.setdefault(n, {}).setdefault(k, []).extend(lying)
        return found

    def _lying(self, place: Place, line: RailLine, flat: Flat, off: frozenset[str]) -> list[Hit]:
        """The low things that lie under a post, but for those that are switched off."""
        rect = place.rect(flat)
        on = (n for n in self.low if not off.intersection(self.pieces[n].facts))
        lying = [n for n in on if not is_clear(rect, self._ground(n, self.pieces[n].seats))]
        return [self._under(place, line, flat, n) for n in lying]

    def _under(self, place: Place, line: RailLine, flat: Flat, low: int) -> Hit:
        """A post of a line of rails beside a low thing."""
        e = self.encoding
        (bx, by), (x, y) = place.base(line), e.base[line.run, line.face]
        corners = Corners(x + flat[0] - bx, y + flat[1] - by, x + flat[2] - bx, y + flat[3] - by)
        name = ("post", line.run, line.face, flat[0] - bx, flat[1] - by)
        return ("p", low), Seen(name, corners, place.rect(flat)), self._ground(low, self.pieces[low].seats)

    def escapes(self, hits: Iterable[Hit]) -> list[z3.BoolRef]:
        """Ways in which one of several things stands clear of what it stands on."""
        return [way for hit in hits for way in self._ways(*hit)]

    def facts(self, hits: Iterable[Hit]) -> list[z3.BoolRef]:
        """The switches of the low things that posts would stand on."""
        pieces = sorted({int(str(thing[1])) for thing, _, _ in hits})
        names = dict.fromkeys(fact for n in pieces for fact in self.pieces[n].facts)
        return [self.encoding.switches[name] for name in names]

    def leaves(self, place: Place, line: RailLine, flat: Flat) -> list[z3.BoolRef] | None:
        """What is true as soon as a post that stands clear of every low thing would stand on one.

        Returns:
            One term for each low thing; None where the post is clear by so little that no direction shows it.
        """
        terms = []
        for _, seen, ground in (self._under(place, line, flat, n) for n in self.low):
            ways = (*ground.normals, faced(seen.rect, ground))
            way = max(ways, key=lambda way: way.slack(seen.rect))  # the last to be lost
            if not way.holds(seen.rect):
                return None
            terms.append(z3.Not(seen.corners.atom(way)))
        return terms

    def _standing(self, place: Place) -> Iterator[Seen]:
        """Ends and corner posts."""
        for name, flat in place.standing().items():
            yield Seen(("standing", name), self.encoding.standing[name], place.rect(flat))

    def _walls(self) -> None:
        """The half-planes round the room are known from the start: they always matter."""
        e = self.encoding
        for n, piece in enumerate(self.pieces):
            if piece.half_plane:
                switches = [e.switches[fact] for fact in piece.facts]
                ways = atoms(self._ground(n, piece.seats), (), SHORT)
                for name in ("main", *e.there):
                    corners = e.feet[name]
                    self._clause(switches, [corners.atom(way) for way in ways], corners.when)

    def _ground(self, piece: int, keep: Length) -> Ground:
        if (piece, keep) not in self.grounds:
            p, f = self.pieces[piece], self.encoding.frame
            points = tuple(f.fine(point) for point in p.points)
            fine, arc = keep.units * f.scale, p.arc.units * f.scale
            self.grounds[piece, keep] = Ground(points, fine, f.mark, self.reach, p.half_plane, arc=arc)
        return self.grounds[piece, keep]

    def _ways(self, thing: Thing, seen: Seen, ground: Ground) -> list[z3.BoolRef]:
        """Ways to be clear, none of which this rectangle keeps.

        Where the relaxed ways would let it pass, the sector that it faces is cut and the coefficients are made
        longer; in the end its very place is forbidden.
        """
        key = (thing, seen.name, ground.keep)
        splits, bits = self.splits.setdefault(key, ([], SHORT))
        ways = atoms(ground, splits, bits)
        while any(way.holds(seen.rect) for way in ways):
            finer = sorted({*splits, facing(seen.rect, ground)}), min(bits + SHORT, LONG)
            if finer == (splits, bits):
                break
            splits, bits = self.splits[key] = finer
            ways = atoms(ground, splits, bits)
        if not any(way.holds(seen.rect) for way in ways):
            return [seen.corners.atom(way) for way in ways]
        if self._off_marks(seen):
            return [z3.BoolVal(True)]
        return [_elsewhere(seen)]

    def _off_marks(self, seen: Seen) -> bool:
        """A place between marks that no clause rules out: learn that places are whole marks there."""
        across = self.encoding.whole(seen.corners.x0, seen.rect.x0)
        return self.encoding.whole(seen.corners.y0, seen.rect.y0) or across

    def _clause(self, switches: list[z3.BoolRef], ways: list[z3.BoolRef], when: z3.BoolRef | None) -> None:
        needed = [*switches, *([when] if when is not None else [])]
        self.encoding.add(either([*map(never, needed), *ways]))

    def _open(self, n: int, near: list[list[Hit]]) -> None:
        """Learn that furniture of the left bank keeps clear of the right one, and the other way about."""
        switch = self.encoding.switches[f"route:{self.walkways[n].route.name}"]
        for side, hits in enumerate(near):
            escape = never(self.left[n]) if side == 1 else self.left[n]
            for thing, seen, ground in hits:
                self._clause([switch], [escape, *self._ways(thing, seen, ground)], seen.corners.when)

    def _near(self, bank: tuple[int, int], bars: tuple[Bar, ...], seats: tuple[Seen, ...]) -> Iterator[Hit]:
        frame = self.encoding.frame
        for b, bar in enumerate(bars):
            key = ("bar", self.grade, *bank, b)
            if key not in self.grounds:
                points = tuple(frame.fine(point) for point in bar.points)
                behind = tuple((frame.fine(a), frame.fine(b)) for a, b in bar.behind)
                self.grounds[key] = Ground(points, bar.keep.units * frame.scale, frame.mark, self.reach, behind=behind)
            ground = self.grounds[key]
            for seen in seats:
                if not is_clear(seen.rect, ground):
                    yield key, seen, ground
