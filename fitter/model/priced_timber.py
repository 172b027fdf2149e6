"""What posts, rails and boards of a proposal cost in money, where boards have prices."""

from __future__ import annotations

import z3

from fitter.domain.costing import Costing
from fitter.domain.project import Project
from fitter.domain.wishes import Objective
from fitter.model.arrangement import Place, chosen_bays, different_lengths
from fitter.model.building import build
from fitter.model.encoding import Encoding
from fitter.model.lemmas import Lemmas
from fitter.model.priced import MORE, Priced, cheapest
from fitter.model.terms import value
from fitter.model.timber import Timber, TimberLemmas, Under, places_of


class PricedTimber(TimberLemmas):
    """The same as its base until money is asked for; from then on posts stand where the boards cost least.

    Args:
        encoding: of the frame.
        lemmas: of the frame.
        shared: lemmas about runs, of all frames.
        costing: prices of boards.
    """

    def __init__(self, encoding: Encoding, lemmas: Lemmas, shared: list[z3.BoolRef], costing: Costing) -> None:
        super().__init__(encoding, lemmas, shared)
        self.costing = costing
        self._known: dict[object, Priced] = {}

    @property
    def _project(self) -> Project:
        return self.encoding.project

    def count(self, place: Place, under: Under) -> Timber:
        """The posts and lengths of a proposal; where money was asked for, of the cheapest boards."""
        usual = super().count(place, under)
        if Objective.MONEY not in self.reached or not usual.chosen:
            return usual
        priced = self._priced(place, under)
        posts = sum(map(len, priced.chosen)) + 2 * len(place.choice.arms)
        return Timber(
            priced.chosen, posts, different_lengths(place, priced.chosen), cents=priced.cents, usual=priced.usual
        )

    def learn(self, model: z3.ModelRef, place: Place, under: Under, *, lengths: bool) -> bool:
        """Learn what the boards of a proposal cost, and its posts and lengths as they then are; False if known."""
        if Objective.MONEY not in self.reached:
            return super().learn(model, place, under, lengths=lengths)
        e, timber = self.encoding, self.count(place, under)
        runs = z3.And(*e.priced_by(place.choice), *self._owners(place))
        known = [(e.boards, timber.cents)]
        known += [(e.posts, timber.posts)] if Objective.POSTS in self.reached else []
        known += [(e.lengths, timber.lengths)] if lengths else []
        for term, number in known:
            told = value(model, term)
            if not self.lemmas.low and told != number:
                self._share(z3.Implies(runs, term == number))
                return True
            if self.lemmas.low and told < number:
                needed = [hit[0] for lines in under.posts.values() for hit in lines.values()]
                posts = [
                    (line, line.post(at, e.sizes.post))
                    for line, split in zip(place.lines, timber.chosen, strict=True)
                    for at in split
                ]
                self._here(place, runs, posts, needed, term >= number)
                return True
        return False

    def _priced(self, place: Place, under: Under) -> Priced:
        blocked = places_of(under.posts)
        choice = place.choice
        owners = tuple(place.owner(arm) for arm in choice.arms)
        lines = tuple(sorted((n, tuple(sorted(at))) for n, at in blocked.items()))
        runs = (choice.main, choice.right, choice.left, choice.corner, choice.right_corner, choice.left_corner)
        key = (runs, owners, lines)
        if key not in self._known:
            usual = chosen_bays(place, blocked)
            assert usual is not None
            layout = build(self._project, choice, Timber(usual, 0, 0), self.encoding.sizes, self.encoding.frame)
            if self._before(Objective.LENGTHS):
                # What comes before money has settled where posts stand.
                pairs = enumerate(zip(place.lines, usual, strict=True))
                blocked = {n: frozenset(line.clear.lines) - frozenset(split) for n, (line, split) in pairs}
            more = 0 if self._before(Objective.POSTS) or self._before(Objective.LENGTHS) else MORE
            self._known[key] = cheapest(place, blocked, usual, self.costing.of(layout), more=more)
        return self._known[key]

    def _before(self, objective: Objective) -> bool:
        """Whether an objective comes before money."""
        order = self._project.wish.prefer
        return order.index(objective) < order.index(Objective.MONEY)
