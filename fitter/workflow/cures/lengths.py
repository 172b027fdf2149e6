"""A lever on one length of the file, a shop mark a step."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from fitter.domain.project import Project
from fitter.domain.why import Change, Ease
from fitter.workflow.cures.lever import Lever, Told
from rooms.lengths import ZERO, Length, format_length


def _nothing(value: Length) -> str:
    return ""


@dataclass(frozen=True)
class Sized:
    """A length of a project.

    Args:
        fact: the requirement that it states.
        ease: how easily it is changed.
        name: of what is changed, as a noun.
        says: what to do, with `{before}` and `{after}`.
        key: of the length in the file.
        before: what the file says, or counts where it says nothing.
        to: the project with another length there.
        caution: what to mind at a length; empty for nothing.
        clearance: whether it is how far one stays off a thing or a route's banks, and nothing else.
    """

    fact: str
    ease: Ease
    name: str
    says: str
    key: str
    before: Length
    to: Callable[[Length], Project]
    caution: Callable[[Length], str] = _nothing
    clearance: bool = False


def round_limit(project: Project, inches: int, millimetres: int) -> Length:
    """A limit of ours as a round number of what the file counts in."""
    return Length.inches(inches) if project.unit.imperial else Length.millimetres(millimetres)


def up_to(project: Project, sized: Sized, most: Length) -> Lever:
    """The lever that makes a length greater, each step of which only makes it easier."""
    mark = project.mark
    first = sized.before.floor_to(mark) + mark
    lever = _lever(project, sized, max(0, (most - first) // mark + 1), lambda step: first + mark * (step - 1))
    return replace(lever, reach=f"up to {format_length(most, project.unit)}")


def down_to(project: Project, sized: Sized, least: Length) -> Lever:
    """The lever that makes a length smaller, each step of which only makes it easier."""
    mark = project.mark
    first = sized.before.ceil_to(mark) - mark
    lever = _lever(project, sized, max(0, (first - least) // mark + 1), lambda step: first - mark * (step - 1))
    return replace(lever, reach=f"down to {format_length(least, project.unit)}") if least > ZERO else lever


def _lever(project: Project, sized: Sized, steps: int, value: Callable[[int], Length]) -> Lever:
    def told(step: int) -> Told:
        old, new = (format_length(size, project.unit) for size in (sized.before, value(step)))
        says = sized.says.format(before=old, after=new)
        return Told(says, (Change(sized.key, old, new),), sized.caution(value(step)))

    def at(step: int) -> Project:
        return sized.to(value(step))

    return Lever(
        (sized.fact,), sized.ease, sized.name, steps, at, told, keeps=value if sized.clearance else None
    )  # fmt: skip
