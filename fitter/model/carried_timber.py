"""What posts and rails of a proposal cost where it is split into pieces that can be carried."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import z3

from fitter.domain.layout import Side
from fitter.model import carrying
from fitter.model.arrangement import ARMS, Place
from fitter.model.carrying import Carried, Spine, Ways
from fitter.model.lemmas import Hit
from fitter.model.rail_lines import Flat, RailLine
from fitter.model.terms import value
from fitter.model.timber import Timber, TimberLemmas, Under

Key = tuple[str, int, int]
"""Of what cannot be: `post` or `split`, the index of the rail line, the number of the module line."""


class CarriedTimber(TimberLemmas):
    """The same as its base, where runs are split: front and back of a run belong together, and its ends matter."""

    def under(self, place: Place, off: frozenset[str]) -> Under:
        """The low things that lie where posts would stand, alone or beside a split."""
        return Under(self.lemmas.blocked(place, off), self.lemmas.unsplit(place, off))

    def refused(self, place: Place, under: Under, off: frozenset[str]) -> bool:
        """Learn that no posts can carry a proposal, or that it cannot be split into pieces that can be carried."""
        if super().refused(place, under, off):
            return True
        if "carry" in off:
            return False
        blocked = _keys(place, under)
        found = False
        for n, spine in enumerate(place.spines):
            span = self._span(spine, off)
            if self._ways(_left(spine, n, blocked), span) is None:
                self._refuse(place, n, span, blocked)
                found = True
        return found

    def _span(self, spine: Spine, off: frozenset[str]) -> int:
        """The longest rail; one that is longer than any where the span is switched off."""
        return spine.front.length + spine.back.length if "span" in off else self.encoding.sizes.span

    def _ways(self, spine: Spine, span: int, *, seldom: bool = True) -> Ways | None:
        s = self.encoding.sizes
        assert s.carried is not None
        return carrying.ways(spine, s.post, span, s.carried, seldom=seldom)

    def _refuse(self, place: Place, n: int, span: int, blocked: dict[Key, Hit]) -> None:
        """That a run cannot be split, with the facts that this rests on."""
        e, spine = self.encoding, place.spines[n]
        any_span = self._span(spine, frozenset({"span"}))
        needed = self._least_keys(spine, n, blocked, lambda left: self._ways(left, span) is None)
        without_span = self._ways(_left(spine, n, needed), any_span) is None
        given = [e.switches["carry"], *([] if without_span else [e.switches["span"]]), *self._pair(place, n)]
        hits = list(needed.values())
        lemma = z3.Or(*(z3.Not(term) for term in [*given, *self.lemmas.facts(hits)]), *self.lemmas.escapes(hits))
        if hits:
            e.add(lemma)
        else:
            self._share(lemma)

    def _least_keys(
        self, spine: Spine, n: int, blocked: dict[Key, Hit], still: Callable[[Spine], bool]
    ) -> dict[Key, Hit]:
        """A smallest set of what cannot be, for which something still holds of a run."""
        kept = {key: hit for key, hit in blocked.items() if key[1] // 2 == n}
        for key in list(kept):
            fewer = {other: hit for other, hit in kept.items() if other != key}
            if still(_left(spine, n, fewer)):
                kept = fewer
        return kept

    def _carried(self, place: Place, under: Under) -> Carried | None:
        s, blocked = self.encoding.sizes, _keys(place, under)
        assert s.carried is not None
        spines = tuple(_left(spine, n, blocked) for n, spine in enumerate(place.spines))
        return carrying.choose(spines, s.post, s.span, s.carried)

    def count(self, place: Place, under: Under) -> Timber:
        """The posts and lengths of a proposal, split as seldom as can be; nothing where it cannot be split."""
        carried = self._carried(place, under)
        if carried is None:
            return Timber((), 0, 0)
        faces = [numbers for cut in carried.cuts for numbers in (cut.front, cut.back)]
        chosen = tuple(
            tuple(line.zero + k * line.pitch for k in numbers) for line, numbers in zip(place.lines, faces, strict=True)
        )
        posts = carried.posts + 2 * len(place.choice.arms)
        return Timber(chosen, posts, carried.lengths, tuple(cut.lines for cut in carried.cuts))

    def learn(self, model: z3.ModelRef, place: Place, under: Under, *, lengths: bool) -> bool:
        """Learn the posts of a proposal, and its different rail lengths; False if both were known."""
        e, blocked = self.encoding, _keys(place, under)
        found = False
        for n, spine in enumerate(place.spines):
            found |= self._learn_posts(model, place, n, spine, blocked)
        if found:
            return True
        timber = self.count(place, under)
        known = [(e.posts, timber.posts), *([(e.lengths, timber.lengths)] if lengths else [])]
        runs = z3.And(*e.frame_of(place.choice), *self._owners(place), *e.ends_of(place.choice))
        for term, number in known:
            told = value(model, term)
            if self.lemmas.low and told < number:
                needed = list(blocked.values())
                self._here(place, runs, self._stand(place, timber), needed, term >= number)
                return True
            if not self.lemmas.low and told != number:
                self._share(z3.Implies(runs, term == number))
                return True
        return False

    def _learn_posts(self, model: z3.ModelRef, place: Place, n: int, spine: Spine, blocked: dict[Key, Hit]) -> bool:
        """Learn how many posts a run has, or where low things lie, that it has no fewer than some; False if known."""
        e = self.encoding
        terms = [e.lines[spine_line.run, str(spine_line.face)] for spine_line in place.lines[2 * n : 2 * n + 2]]
        term, told = terms[0] + terms[1], sum(value(model, each) for each in terms)
        runs = self._pair(place, n)
        if not self.lemmas.low:
            ways = self._ways(spine, e.sizes.span)
            assert ways is not None
            if told != ways.posts:
                self._share(z3.Implies(z3.And(*runs), term == ways.posts))
            return bool(told != ways.posts)
        # Where low things forbid the fewest splits, posts may get fewer: a bound are those of any number of splits.
        fewest = self._ways(_left(spine, n, blocked), e.sizes.span, seldom=False)
        assert fewest is not None
        if told >= fewest.posts:
            return False

        def as_many(left: Spine) -> bool:
            ways = self._ways(left, e.sizes.span, seldom=False)
            return ways is None or ways.posts >= fewest.posts

        hits = list(self._least_keys(spine, n, blocked, as_many).values())
        given = [*runs, *self.lemmas.facts(hits)]
        lemma = z3.Or(*(z3.Not(fact) for fact in given), term >= fewest.posts, *self.lemmas.escapes(hits))
        if hits:
            e.add(lemma)
        else:
            self._share(lemma)
        return True

    def _stand(self, place: Place, timber: Timber) -> list[tuple[RailLine, Flat]]:
        """The posts in the lines of rails."""
        post = self.encoding.sizes.post
        return [
            (line, line.strip(low, low + post, post))
            for n, (line, split) in enumerate(zip(place.lines, timber.chosen, strict=True))
            for low, _ in line.stands(split, timber.splits[n // 2], post)
        ]

    def _pair(self, place: Place, n: int) -> list[z3.BoolRef]:
        """All that the splits and posts of a run depend on."""
        e, run = self.encoding, place.lines[2 * n].run
        row = place.choice.row(run)
        assert row is not None
        terms = [e.rows[run].exactly(row)]
        corners: list[Side] = [run] if run is not Side.MAIN else [*place.choice.arms]
        for arm in corners:
            other = Side.MAIN if run is not Side.MAIN else arm
            terms += [e.there[arm], e.rows[other].deck == place.deck(other)]
        if run is Side.MAIN:
            terms += [z3.Not(e.there[arm]) for arm in ARMS if arm not in place.choice.arms]
        free = [run] if run is not Side.MAIN else [hand for hand in ARMS if hand not in place.choice.arms]
        terms += [e.end_of(place.choice, hand) for hand in free]
        return terms + self._owners(place, corners)


def _keys(place: Place, under: Under) -> dict[Key, Hit]:
    """What low things forbid, each with one of them."""
    found: dict[Key, Hit] = {}
    for n, places in under.posts.items():
        line = place.lines[n]
        for at, hits in places.items():
            found["post", n, (at - line.zero) // line.pitch] = hits[0]
    for n, numbers in under.splits.items():
        for k, hits in numbers.items():
            found["split", n, k] = hits[0]
    return found


def _left(spine: Spine, n: int, blocked: Iterable[Key]) -> Spine:
    """What low things leave of a run."""
    keys = list(blocked)
    splits = frozenset(k for kind, line, k in keys if kind == "split" and line // 2 == n)
    front, back = (frozenset(k for kind, line, k in keys if kind == "post" and line == 2 * n + face) for face in (0, 1))
    return spine.without(splits, front, back)
