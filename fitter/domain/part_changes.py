"""In what the sticks of two frames differ: by what they are, how many, and how long."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitter.domain.woodwork import Part, PartRole
from rooms.lengths import ZERO, Length

Stick = tuple[str, Length, Length, Length]
"""Section, finished width and thickness, finished length."""


@dataclass(frozen=True)
class Resized:
    """Sticks that are cut to another length.

    Args:
        count: how many.
        before: the length in the one frame.
        after: the length in the other.
    """

    count: int
    before: Length
    after: Length


@dataclass(frozen=True)
class RoleChange:
    """How the sticks of one role differ.

    Args:
        role: what they are.
        before: how many in the one frame.
        after: how many in the other.
        wood_before: all of them end to end.
        wood_after: the same in the other frame.
        resized: those that change their length, where both frames have as many that the other has not.
        gone: else those that only the first has: how many of which length.
        come: those that only the other one has.
    """

    role: PartRole
    before: int
    after: int
    wood_before: Length
    wood_after: Length
    resized: tuple[Resized, ...] = ()
    gone: tuple[tuple[int, Stick], ...] = ()
    come: tuple[tuple[int, Stick], ...] = ()


def part_changes(before: Sequence[Part], after: Sequence[Part]) -> tuple[RoleChange, ...]:
    """In which roles two frames differ, in the order of every list.

    Args:
        before: the sticks of one frame.
        after: those of the other.

    Returns:
        Only roles whose sticks are not the same in number and size; where they lie and how they are notched may
        differ without being told here.
    """
    return tuple(change for role in PartRole if (change := _change(role, before, after)) is not None)


def _change(role: PartRole, before: Sequence[Part], after: Sequence[Part]) -> RoleChange | None:
    old, new = (Counter(_stick(part) for part in parts if part.role is role) for parts in (before, after))
    gone, come = old - new, new - old
    if not gone and not come:
        return None
    change = RoleChange(role, old.total(), new.total(), _wood(old), _wood(new))
    if gone.total() == come.total() and {stick[:3] for stick in gone} == {stick[:3] for stick in come}:
        return RoleChange(**{**vars(change), "resized": tuple(_resized(gone, come))})
    return RoleChange(**{**vars(change), "gone": _listed(gone), "come": _listed(come)})


def _stick(part: Part) -> Stick:
    return part.section.name, part.width, part.thickness, part.length


def _wood(sticks: Counter[Stick]) -> Length:
    return sum((stick[3] * count for stick, count in sticks.items()), ZERO)


def _resized(gone: Counter[Stick], come: Counter[Stick]) -> Iterator[Resized]:
    """The shortest becomes the shortest, and so on up."""
    pairs = Counter(zip(_lengths(gone), _lengths(come), strict=True))
    for (old, new), count in sorted(pairs.items()):
        yield Resized(count, Length(old), Length(new))


def _lengths(sticks: Counter[Stick]) -> list[int]:
    return sorted(stick[3].units for stick in sticks.elements())


def _listed(sticks: Counter[Stick]) -> tuple[tuple[int, Stick], ...]:
    """Longest first."""
    rows = sorted(sticks.items(), key=lambda row: (-row[0][3].units, row[0][0], row[0][1].units, row[0][2].units))
    return tuple((count, stick) for stick, count in rows)
