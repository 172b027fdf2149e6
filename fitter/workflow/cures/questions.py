"""Whether anything fits: asked many times of nearly the same project, and every layout that is found is checked."""

from __future__ import annotations

import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from fitter.checking import check_layout, route_widths
from fitter.domain.findings import Finding
from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.requirements import requirements, walked
from fitter.domain.wishes import Objective, Shape
from fitter.model import GradedSearch, Search, TimeUp, any_layout, search_without
from rooms.lengths import Length

_REMEMBERED = 2


class CheckError(Exception):
    """The checker refuses a layout that the model found."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__(findings[0].message)
        self.findings = findings


@dataclass
class Questions:
    """Asks about a project, and about others that differ from it.

    Args:
        project: that is impossible.
        deadline: by the monotonic clock; None for no limit.
        asked: how many questions were put so far.
        unsettled: names of levers of which it is not known whether they help: that would take too many questions.
    """

    project: Project
    deadline: float | None = None
    asked: int = 0
    unsettled: list[str] = field(default_factory=list)
    _search: Search | None = None
    _graded: GradedSearch | None = None
    _latest: Search | None = None
    _met: list[Layout] = field(default_factory=list)
    _known: dict[frozenset[str], Layout | None] = field(default_factory=dict)

    def without(self, off: frozenset[str]) -> Layout | None:
        """A layout that meets all requirements of the project but these; None where it is proven that there is none.

        Raises:
            TimeUp: not known within the limit.
        """
        if off not in self._known:
            left = self._left()
            if walked(off):
                self._known[off] = any_layout(self.project, left, off)
            else:
                self._known[off] = self._base(left).any_layout(off)
        return self._known[off]

    def _base(self, left: float | None) -> Search:
        """One search for all questions that leave the numbers of the project as they are."""
        self._search = self._search or Search(self.project, left)
        return self._search

    def keeping(self, fact: str, project: Project, keep: Length) -> Layout | None:
        """A layout of a project that differs by a smaller clearance alone; None where it is proven that there is none.

        Args:
            fact: id of the route or thing.
            project: with that clearance.
            keep: that clearance.

        Raises:
            TimeUp: not known within the limit.
            CheckError: the checker refuses what was found.
        """
        base = self._base(left := self._left())
        if base.barred is not None:
            return self._checked(project, any_layout(project, left))
        self._graded = self._graded or GradedSearch(base)
        return self._checked(project, self._graded.layout(fact, project, keep.units))

    def clash(self, off: frozenset[str] = frozenset()) -> tuple[str, ...]:
        """A minimal set of requirements, other than these, that cannot hold together; empty where all others can.

        Raises:
            TimeUp: not known within the limit.
        """
        kept = tuple(route for route in self.project.room.routes if f"route:{route.name}" not in off)
        bare = self._without_all([name for name in self._silent(()) if name in off])
        search = Search(replace(bare, room=replace(bare.room, routes=kept)), self._left())
        if search.barred is not None:
            return (search.barred,)
        return () if search.any_layout(off) is not None else search.clash(off)

    def whole_clash(self, ids: tuple[str, ...], off: frozenset[str] = frozenset()) -> tuple[str, ...]:
        """A minimal set of requirements with those that shape the question itself, where they are needed too.

        A route goes between all things of the room, whether seats keep off them or not; and where runs may lie follows
        from the edges and the shape that are asked for, whether they are switched on or not.

        Args:
            ids: of requirements that cannot hold together, each of them needed for that.
            off: requirements that were given up then.

        Raises:
            TimeUp: not known within the limit.
        """
        facts = {fact.id: fact.rank for fact in requirements(self.project)}
        gone = [name for name in self._silent(ids) if name in off]
        silent = [name for name in self._silent(ids) if name not in ids and name not in off]
        bare = self._without_all([*gone, *silent])
        if not silent or self.only(bare, frozenset(ids)) is None:
            return ids
        for name in silent:
            if self.only(self._without_all([*gone, name]), frozenset((*ids, *silent)) - {*gone, name}) is None:
                gone.append(name)
        bare, needed = self._without_all(gone), [*ids, *(name for name in silent if name not in gone)]
        for name in sorted(ids, key=lambda name: -facts[name]):
            rest = frozenset(needed) - {name}
            if self.only(self._without_all([*gone, *({name} & {"shape", "against"})]), rest) is None:
                needed.remove(name)
        return tuple(name for name in facts if name in needed)

    def _silent(self, ids: Sequence[str]) -> Iterator[str]:
        """Requirements that matter even where they are switched off."""
        wish = self.project.wish
        if wish.against is not None:
            yield "against"
        if wish.shape not in (None, Shape.U):
            yield "shape"
        if walked(ids):
            yield from (f"obstacle:{thing.name}" for thing in self.project.room.obstacles if not thing.low)

    def _without_all(self, names: Sequence[str]) -> Project:
        """The project without some of those."""
        wish, room = self.project.wish, self.project.room
        things = tuple(thing for thing in room.obstacles if f"obstacle:{thing.name}" not in names)
        wish = replace(wish, against=None) if "against" in names else wish
        wish = replace(wish, shape=None) if "shape" in names else wish
        return replace(self.project, wish=wish, room=replace(room, obstacles=things))

    def layout(self, project: Project, off: frozenset[str] = frozenset()) -> Layout | None:
        """A layout of another project; None where it is proven that there is none.

        Raises:
            TimeUp: not known within the limit.
            CheckError: the checker refuses what was found.
        """
        left = self._left()
        if not off and (known := self._met_before(project)) is not None:
            return known
        search = search_without(project, left, off, self._latest)
        self._latest = search if search.questions else self._latest
        found = search.any_layout(off)
        if off or self._checked(project, found) is None:
            return found
        self._met = [found, *self._met][:_REMEMBERED] if found is not None else self._met
        return found

    def best(self, project: Project, aim: Objective) -> Layout | None:
        """The best layout of a project by one objective alone; None where it is proven that there is none.

        Raises:
            TimeUp: not known within the limit.
            CheckError: the checker refuses what was found.
        """
        return self._checked(project, Search(project, self._left()).best_layout(aim))

    def _met_before(self, project: Project) -> Layout | None:
        """A layout that was found for another project, where it does for this one too: the checker knows sooner.

        It has to do exactly, so that the answer does not hang on what was met before.
        """
        fitting = (known for known in self._met if not check_layout(project, known, exactly=True))
        return next((known for known in fitting if _wide_enough(project, known)), None)

    def _checked(self, project: Project, found: Layout | None) -> Layout | None:
        if found is not None and (findings := check_layout(project, found)):
            raise CheckError(findings)
        return found

    def only(self, project: Project, facts: frozenset[str]) -> Layout | None:
        """The same where nothing but these requirements has to be met."""
        return self.layout(project, frozenset(fact.id for fact in requirements(project)) - facts)

    def _left(self) -> float | None:
        self.asked += 1
        if self.deadline is None:
            return None
        left = self.deadline - time.monotonic()
        if left <= 0:
            raise TimeUp
        return left


def _wide_enough(project: Project, layout: Layout) -> bool:
    """Whether every route is as wide as asked to the unit: the checker lets a hair less pass, the model does not."""
    return all(width.clear is None or width.clear >= width.asked for width in route_widths(project, layout))
