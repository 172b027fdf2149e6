"""What posts and rails of a proposal cost: counted exactly, and learned by every frame's solver."""

from __future__ import annotations

from dataclasses import dataclass

import z3

from fitter.domain.layout import Face, Side
from fitter.domain.wishes import CornerKind, Objective
from fitter.model import bays
from fitter.model.arrangement import ARMS, Place, chosen_bays, different_lengths
from fitter.model.encoding import Encoding
from fitter.model.lemmas import Hit, Lemmas
from fitter.model.rail_lines import Flat, RailLine
from fitter.model.terms import value

Hits = dict[int, dict[int, list[Hit]]]


@dataclass(frozen=True)
class Timber:
    """Posts and rails of a proposal.

    Args:
        chosen: the bay split of each rail line.
        posts: interior and corner posts together.
        lengths: different cut lengths of front and back rails.
        splits: module lines at which each run is split, in the order of the lines of rails; empty where none is.
        cents: what its boards cost; 0 until money is asked for.
        usual: the bay splits if boards cost nothing; empty until money is asked for.
    """

    chosen: tuple[bays.Split, ...]
    posts: int
    lengths: int
    splits: tuple[tuple[int, ...], ...] = ()
    cents: int = 0
    usual: tuple[bays.Split, ...] = ()


@dataclass(frozen=True)
class Under:
    """Low things under posts, by rail line.

    Args:
        posts: by the place along the line of a module line that would carry a post.
        splits: by the number of a module line at which the run would be split.
    """

    posts: Hits
    splits: Hits


class TimberLemmas:
    """Counts a proposal's posts and rail lengths, and teaches the solver what it did not know of them.

    Where nothing lies low in the room, posts and lengths follow from the runs alone, whatever the frame: such lemmas
    are kept in a list that all frames read.

    Args:
        encoding: of the frame.
        lemmas: of the frame.
        shared: lemmas about runs, of all frames.
    """

    def __init__(self, encoding: Encoding, lemmas: Lemmas, shared: list[z3.BoolRef]) -> None:
        self.encoding, self.lemmas, self.shared = encoding, lemmas, shared
        self.read = 0
        self.reached: set[Objective] = set()

    def catch_up(self) -> None:
        """Take over what other frames have learned."""
        self.encoding.add(*self.shared[self.read :])
        self.read = len(self.shared)

    def under(self, place: Place, off: frozenset[str]) -> Under:
        """The low things that lie where posts would stand."""
        return Under(self.lemmas.blocked(place, off), {})

    def refused(self, place: Place, under: Under, off: frozenset[str]) -> bool:
        """Learn that no posts can carry a proposal as is asked; False if some can.

        Args:
            place: the proposal.
            under: what lies under its posts.
            off: requirement ids that are switched off.
        """
        return "span" not in off and self._beyond_span(place, under.posts)

    def _beyond_span(self, place: Place, hits: Hits) -> bool:
        """Learn that a proposal's rails cannot keep the span; False if they can."""
        s, found = self.encoding.sizes, False
        for line in place.lines:
            if not bays.splits(line.clear, s.post, s.span):
                self._share(z3.Not(z3.And(self.encoding.switches["span"], *self._runs(place, line))))
                found = True
        if found:
            return True
        for n, under in hits.items():
            line = place.lines[n]
            if not self._splits(line, frozenset(under)):
                needed = self._least(line, under, 0)
                given = [self.encoding.switches["span"], *self.lemmas.facts(needed), *self._runs(place, line)]
                self.encoding.add(z3.Or(*(z3.Not(term) for term in given), *self.lemmas.escapes(needed)))
                found = True
        return found

    def _splits(self, line: RailLine, blocked: frozenset[int]) -> tuple[bays.Split, ...]:
        return bays.splits(line.without(blocked), self.encoding.sizes.post, self.encoding.sizes.span)

    def _least(self, line: RailLine, under: dict[int, list[Hit]], posts: int) -> list[Hit]:
        """A smallest set of module lines whose being blocked makes the line need more than so many posts less one.

        Args:
            line: of rails.
            under: what lies under each module line that is blocked.
            posts: how many it then needs; 0 for more than there are lines.
        """
        kept = dict(under)
        for at in under:
            fewer = frozenset(kept) - {at}
            ways = self._splits(line, fewer)
            if not ways or (posts and len(ways[0]) >= posts):
                del kept[at]
        return [hits[0] for hits in kept.values()]

    def count(self, place: Place, under: Under) -> Timber:
        """The posts and lengths of a proposal, with the fewest of each; nothing where the span is not kept."""
        chosen = chosen_bays(place, places_of(under.posts))
        if chosen is None:
            return Timber((), 0, 0)
        posts = sum(map(len, chosen)) + 2 * len(place.choice.arms)
        return Timber(chosen, posts, different_lengths(place, chosen))

    def learn(self, model: z3.ModelRef, place: Place, under: Under, *, lengths: bool) -> bool:
        """Learn the posts of a proposal, and its different rail lengths; False if both were known.

        Args:
            model: of the solver.
            place: the proposal, which keeps the span.
            under: what lies under its posts.
            lengths: whether lengths are asked for already.
        """
        e, hits = self.encoding, under.posts
        chosen = chosen_bays(place, places_of(hits))
        assert chosen is not None
        found = False
        for n, (line, split) in enumerate(zip(place.lines, chosen, strict=True)):
            term = e.lines[line.run, str(line.face)]
            fewest = len(bays.splits(line.clear, e.sizes.post, e.sizes.span)[0])
            told = value(model, term)
            if told < fewest or (told > fewest and not self.lemmas.low):
                runs = z3.And(*self._runs(place, line))
                self._share(z3.Implies(runs, term >= fewest if self.lemmas.low else term == fewest))
                found = True
            elif told < len(split):
                self._learn_more(place, line, len(split), hits[n])
                found = True
        if not found and lengths:
            return self._learn_lengths(model, place, chosen, hits)
        return found

    def _learn_more(self, place: Place, line: RailLine, posts: int, under: dict[int, list[Hit]]) -> None:
        """That a line needs more posts while some of its module lines stay blocked."""
        e, needed = self.encoding, self._least(line, under, posts)
        given = [*self._runs(place, line), *self.lemmas.facts(needed)]
        term = e.lines[line.run, str(line.face)]
        e.add(z3.Or(*(z3.Not(fact) for fact in given), term >= posts, *self.lemmas.escapes(needed)))

    def _learn_lengths(self, model: z3.ModelRef, place: Place, chosen: tuple[bays.Split, ...], hits: Hits) -> bool:
        """How many lengths the runs need, as long as the posts stand clear and the blocked lines stay blocked."""
        e, different = self.encoding, different_lengths(place, chosen)
        told = value(model, e.lengths)
        runs = z3.And(*e.frame_of(place.choice), *self._owners(place))
        if not self.lemmas.low:
            if told != different:
                self._share(z3.Implies(runs, e.lengths == different))
            return told != different
        if told >= different:
            return False
        needed = [hit[0] for under in hits.values() for hit in under.values()]
        posts = [
            (line, line.post(at, e.sizes.post)) for line, split in zip(place.lines, chosen, strict=True) for at in split
        ]
        self._here(place, runs, posts, needed, e.lengths >= different)
        return True

    def _here(
        self,
        place: Place,
        runs: z3.BoolRef,
        posts: list[tuple[RailLine, Flat]],
        needed: list[Hit],
        then: z3.BoolRef,
    ) -> None:
        """Learn what holds of runs as long as posts stand clear of low things and some things lie where they lie.

        Args:
            place: the proposal.
            runs: that they are these.
            posts: that stand clear.
            needed: low things with the posts that would stand on them.
            then: what follows.
        """
        e = self.encoding
        leaves = [self.lemmas.leaves(place, line, flat) for line, flat in posts]
        moved = [e.x != place.choice.x, e.y != place.choice.y]
        if any(terms is None for terms in leaves):
            # Only the very place can be excluded, and there are too many between marks.
            if e.whole(e.x, place.choice.x) | e.whole(e.y, place.choice.y):
                return
        else:
            moved = [term for terms in leaves for term in terms or ()]
        facts = [z3.Not(fact) for fact in self.lemmas.facts(needed)]
        e.add(z3.Or(z3.Not(runs), *facts, *moved, *self.lemmas.escapes(needed), then))

    def _share(self, lemma: z3.BoolRef) -> None:
        self.shared.append(lemma)
        self.catch_up()

    def _runs(self, place: Place, line: RailLine) -> list[z3.BoolRef]:
        """All that the bays of a rail line depend on."""
        e, row = self.encoding, place.choice.row(line.run)
        assert row is not None
        terms = [e.rows[line.run].exactly(row)]
        if line.face is Face.FRONT:
            # Posts of an odd width stand off their lines to the side that modules are counted to; at a corner the
            # wood of an arm ends behind its cushions.
            odd = e.sizes.post % 2 and self.lemmas.low
            both = line.run is Side.MAIN and (odd or e.sizes.overhang)
            return terms + [e.there[a] if a in place.arms else z3.Not(e.there[a]) for a in ARMS if both]
        corners: list[Side] = [line.run] if line.run is not Side.MAIN else [*place.choice.arms]
        for arm in corners:
            other = Side.MAIN if line.run is not Side.MAIN else arm
            terms += [e.there[arm], e.rows[other].deck == place.deck(other)]
        if line.run is Side.MAIN:
            terms += [z3.Not(e.there[arm]) for arm in ARMS if arm not in place.choice.arms]
        return terms + self._owners(place, corners)

    def _owners(self, place: Place, corners: list[Side] | None = None) -> list[z3.BoolRef]:
        """Who owns the corners, whether their posts stand outside, and how far a spread moves the cushions off."""
        e = self.encoding
        arms = list(place.choice.arms) if corners is None else corners
        terms = [e.spread == place.spread] if arms else []
        for arm in arms:
            outside = e.corner[CornerKind.OUTSIDE_POST]
            owned = e.owned[arm]
            terms += [outside if place.outside else z3.Not(outside)]
            terms += [owned if place.owner(arm) is Side.MAIN else z3.Not(owned)]
        return terms


def places_of(hits: Hits) -> dict[int, frozenset[int]]:
    """Places along each line that cannot carry a post."""
    return {line: frozenset(places) for line, places in hits.items()}
