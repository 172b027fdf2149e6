"""A search asked again with one clearance smaller: what it learns of a smaller one holds for the greater one too."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from itertools import pairwise

import z3

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.model.lemmas import Forbidden
from fitter.model.search import Search


class GradedSearch:
    """Asks whether any layout fits while the width of a route, or the clear ground around a thing, takes other values.

    Each value has a switch of its own. Whoever keeps a greater clearance keeps a smaller one, so that the switch of
    the greater one implies that of the smaller one, and a lemma is never learned twice.

    Args:
        search: of the project as it is; it has its questions (no route is too narrow for the empty room).
    """

    def __init__(self, search: Search) -> None:
        self.search = search
        self.switches = search.questions[0].encoding.switches if search.questions else {}
        self.ground = Forbidden.of(search.project.room)
        self.grades: dict[str, dict[int, z3.BoolRef]] = {}

    def layout(self, fact: str, project: Project, keep: int) -> Layout | None:
        """A layout that meets every requirement of a project; None where it is proven that there is none.

        Args:
            fact: id of a route or an obstacle.
            project: that differs from the search's by the clearance of that alone, which is smaller.
            keep: that clearance in units.

        Raises:
            TimeUp: no answer within the limit.
        """
        with self._at(fact, Forbidden.of(project.room), keep):
            return self.search.any_layout()

    @contextmanager
    def _at(self, fact: str, ground: Forbidden, keep: int) -> Iterator[None]:
        usual = self.switches[fact]
        grades = self.grades.setdefault(fact, {})
        new = keep not in grades
        grades.setdefault(keep, z3.Bool(f"fact {fact} from {keep}"))
        rising = [switch for _, switch in sorted(grades.items())]
        chain = [z3.Implies(more, less) for less, more in pairwise([*rising, usual])] if new else []
        self.switches[fact] = grades[keep]
        for question in self.search.questions:
            question.encoding.add(*chain)
            question.lemmas.take(ground, (fact, keep))
        try:
            yield
        finally:
            self.switches[fact] = usual
            for question in self.search.questions:
                question.lemmas.take(self.ground, None)
