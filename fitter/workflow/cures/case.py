"""A clash on the way to its steps, and the questions by which a number of it is found and proven."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.requirements import Requirement, walked
from fitter.workflow.cures.questions import Questions
from rooms.lengths import Length, format_length


@dataclass(frozen=True)
class Case:
    """What clashes in a project.

    Args:
        project: that is impossible.
        facts: that cannot hold together.
        questions: asks.
    """

    project: Project
    facts: tuple[Requirement, ...]
    questions: Questions

    @property
    def ids(self) -> frozenset[str]:
        """Of the facts."""
        return frozenset(fact.id for fact in self.facts)

    @property
    def bare(self) -> bool:
        """Whether nothing but things and routes has part in it, so that it is so without any seat."""
        return all(name.startswith(("route:", "obstacle:")) for name in self.ids)

    def fact(self, name: str) -> Requirement | None:
        """The fact of an id, if it is in the clash."""
        return next((fact for fact in self.facts if fact.id == name), None)

    def others(self, name: str) -> tuple[Requirement, ...]:
        """All facts but one."""
        return tuple(fact for fact in self.facts if fact.id != name)

    def say(self, length: Length) -> str:
        """A length as the file would have it."""
        return format_length(length, self.project.unit)

    def layout(self, project: Project) -> Layout | None:
        """A layout of another project that meets what clashes, if nothing else is asked; None where there is none.

        Seats that clash with a route do so within the edges of the room, which belong to the route. Where no seats have
        part in it, they may lie anywhere.

        Raises:
            TimeUp: not known within the limit.
        """
        edges = (f"edge:{edge.name}" for edge in project.room.edges) if walked(self.ids) and not self.bare else ()
        return self.questions.only(project, self.ids.union(edges))

    def whole(self, project: Project, but: frozenset[str] = frozenset()) -> Layout | None:
        """A layout of another project that meets all that is asked but some facts; None where there is none.

        Raises:
            TimeUp: not known within the limit.
        """
        return self.questions.layout(project, but)


def greatest(limit: int, fits: Callable[[int], bool], guesses: tuple[int, ...] = ()) -> int:
    """The greatest whole number below a limit that fits, where smaller ones always fit; 0 where none does.

    Args:
        limit: that does not fit.
        fits: whether a number does.
        guesses: numbers that may well be the answer, the likeliest first; each that is saves the halving.

    Returns:
        A number that fits, and that one beyond it does not.
    """
    low, high = 0, limit
    for guess in guesses:
        for number in (guess, guess + 1):
            if low < number < high:
                low, high = (number, high) if fits(number) else (low, number)
    while low + 1 < high:
        middle = (low + high) // 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low


def with_all(most: int, fits: Callable[[int], bool], guesses: tuple[int, ...] = ()) -> int:
    """The greatest number up to `most` that fits with all that is asked; `most` where none does.

    What is missing for the clash alone may be less than what is missing in all; a cure has to make up for the latter.
    """
    if most == 0 or fits(most):
        return most
    return greatest(most, fits, guesses) or most
