"""The layout question with its choices given: only the place, and where posts stand, are left open."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import z3

from fitter.domain.costing import Costing
from fitter.domain.designs import ARMS, Design, Laid, RunDesign
from fitter.domain.layout import Answer, Side, Verdict
from fitter.domain.project import Project
from fitter.domain.wishes import EndKind
from fitter.model.arrangement import Row
from fitter.model.encoding import Encoding
from fitter.model.question import TimeUp
from fitter.model.search import Search
from fitter.model.sizes import Sizes

May = Callable[[Laid, Laid], bool]
"""Whether a cushion may lie in a corner place for which another one is meant."""

_RANKED: tuple[May, ...] = (
    lambda laid, meant: laid == meant,
    lambda laid, meant: laid.cushion == meant.cushion,
    lambda laid, meant: True,
)


class PinnedSearch(Search):
    """A search among the places of one design.

    Args:
        project: the question.
        design: what is given.
        may: which cushions may lie in the corner places.
        limit: seconds; None for no limit.
        costing: prices of boards; None where nothing has a price.
    """

    def __init__(
        self,
        project: Project,
        design: Design,
        may: May,
        limit: float | None = None,
        costing: Costing | None = None,
    ) -> None:
        super().__init__(project, limit, costing=costing)
        self.beyond = bool(self.questions) and any(
            run.count > self.questions[0].encoding.most for _, run in design.runs()
        )
        if self.questions and not self.beyond:
            terms = list(_pins(self.questions[0].encoding, design, may))
            for question in self.questions:
                question.encoding.add(*terms)

    def best_place(self) -> Answer:
        """The best place and posts of the design, proven by the objectives."""
        return self._too_long() if self.beyond else self.answer()

    def any_place(self) -> Answer:
        """Some place where the design stands, which no objective was asked of; or that there is none."""
        if self.beyond:
            return self._too_long()
        if self.barred is not None:
            return Answer(Verdict.IMPOSSIBLE, None, (), (self.barred,), self.seconds)
        try:
            self.best, self.alive = self.propose()
        except TimeUp:
            return Answer(Verdict.UNKNOWN, None, (), (), self.seconds)
        if self.best is None:
            return Answer(Verdict.IMPOSSIBLE, None, (), self.clash(), self.seconds)
        return self._answer(Verdict.FOUND)

    def _too_long(self) -> Answer:
        """A run with more modules than the longest line within the room's bounding box holds: its edges forbid it."""
        edges = tuple(f"edge:{edge.name}" for edge in self.project.room.edges)
        return Answer(Verdict.IMPOSSIBLE, None, (), edges, self.seconds)


def _pins(encoding: Encoding, design: Design, may: May) -> Iterator[z3.BoolRef]:
    """That a layout is of this design."""
    e, sizes = encoding, encoding.sizes
    yield e.rows[Side.MAIN].exactly(_row(sizes, design.main))
    for arm in ARMS:
        run = design.run(arm)
        if run is None:
            yield z3.Not(e.there[arm])
            continue
        yield e.there[arm]
        yield e.rows[arm].exactly(_row(sizes, run))
        meant = design.in_corner(arm)
        if meant is not None:
            yield z3.Or(*(term for n, term in enumerate(e.cushion[arm]) if may(_laid(sizes, n), meant)))
    if design.corner is not None:
        yield e.corner[design.corner]
    for hand in ARMS:
        armed = e.armed[hand]
        yield armed if design.end(hand) is EndKind.ARMED else z3.Not(armed)


def _laid(sizes: Sizes, number: int) -> Laid:
    option = sizes.options[number].option
    return Laid(option.cushion.name, option.turned)


def _row(sizes: Sizes, run: RunDesign) -> Row:
    return Row(next(n for n in range(len(sizes.options)) if _laid(sizes, n) == run.laid), run.count)


def placed(
    project: Project, design: Design, limit: float | None = None, costing: Costing | None = None
) -> Answer:  # fmt: skip
    """The best place of a design in a room, with its posts and rails.

    Corner places take the cushion that is meant for them; where it does not fit as meant, the same kind the other
    way round, and else whichever kind is best.

    Args:
        project: the room and what is asked of any layout.
        design: shape, runs, corner treatment, ends.
        limit: seconds for each try; None for no limit.
        costing: prices of boards; None where nothing has a price.

    Returns:
        Proven, found, unknown, or impossible with the requirements that forbid it: none where the parts cannot
        be put together so in any room.
    """
    answer = None
    for may in _RANKED if any(design.in_corner(arm) for arm in ARMS) else _RANKED[-1:]:
        answer = PinnedSearch(project, design, may, limit, costing).best_place()
        if answer.verdict is not Verdict.IMPOSSIBLE:
            break
    assert answer is not None, "there is a last rank"
    return answer


def stands(project: Project, design: Design, limit: float | None = None) -> Answer:
    """Some place where just this design stands, corner cushions and all; see `placed`."""
    return PinnedSearch(project, design, _RANKED[0], limit).any_place()
