"""What one module more of a run takes, step by step, from variants that were really built."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from fitter.domain.designs import Design, What, option_of
from fitter.domain.project import Project
from fitter.domain.spending import More, more_for_boards, more_for_cushions
from fitter.domain.variants import Variant, Variants
from fitter.domain.wishes import Side
from fitter.domain.woodwork import PartRole
from rooms.lengths import ZERO, Length


@dataclass(frozen=True)
class Wood:
    """Sticks of one role: how many more, and how much more wood end to end; both may be negative."""

    count: int
    length: Length


@dataclass(frozen=True)
class Step:
    """From one number of modules to the next.

    Args:
        low: modules before.
        high: modules after, one more.
        length: over all, along the main run's back.
        depth: over all, square to it.
        seats: sitting places.
        seat_cushions: to buy by a reader.
        back_cushions: the same.
        posts: interior and corner posts.
        wood: of every role that either frame has.
        boards: what they cost more.
        cushions: likewise.
    """

    low: int
    high: int
    length: Length
    depth: Length
    seats: int
    seat_cushions: int
    back_cushions: int
    posts: int
    wood: Mapping[PartRole, Wood]
    boards: More
    cushions: More


@dataclass(frozen=True)
class Growth:
    """The steps of one run around its published size.

    Args:
        run: whose modules are counted.
        pitch: room for one of its modules.
        steps: one module each, rising.
        missing: numbers of modules without a frame to compare, or with runs that have changed roles.
    """

    run: Side
    pitch: Length
    steps: tuple[Step, ...]
    missing: tuple[int, ...] = ()

    @property
    def roles(self) -> tuple[PartRole, ...]:
        """Roles that differ in some step, in the order of every list."""
        return tuple(role for role in PartRole if any(wood_of(step, role) != NONE for step in self.steps))

    @property
    def mean_boards(self) -> Fraction | None:
        """What the boards of a module cost on average, in cents, those whose price is known; None where none is."""
        known = [step.boards.cents for step in self.steps if step.boards.cents is not None]
        return Fraction(sum(known), len(known)) if known and len(known) == len(self.steps) else None


NONE = Wood(0, ZERO)


def wood_of(step: Step, role: PartRole) -> Wood:
    """What a step takes of a role."""
    return step.wood.get(role, NONE)


def growths(project: Project, found: Variants, base: Design) -> tuple[Growth, ...]:
    """The steps of every run for which two neighbouring sizes were built.

    Args:
        project: its cushions.
        found: the variants.
        base: the published design.
    """
    rows = []
    for side, run in base.runs():
        sizes = _sizes(found, side, run.count)
        built = {count: variant for count, variant in sizes.items() if variant is not None}
        steps = tuple(
            _step(low, built[low], high, built[high]) for low, high in pairwise(sorted(built)) if high == low + 1
        )
        missing = tuple(count for count, variant in sizes.items() if variant is None)
        if steps:
            rows.append(Growth(side, option_of(project, run.laid).pitch(project.mark), steps, missing))
    return tuple(rows)


def _sizes(found: Variants, side: Side, count: int) -> dict[int, Variant | None]:
    """The variant of each number of modules; None for one that cannot be compared."""
    sizes: dict[int, Variant | None] = {count: found.base if found.base and found.base.built else None}
    for variant in found.variants:
        change = variant.change
        if change is not None and change.what is What.COUNT and change.run is side:
            sizes[count + change.more] = variant if variant.built and not change.swapped else None
    return dict(sorted(sizes.items()))


def _step(low: int, before: Variant, high: int, after: Variant) -> Step:
    (length, depth), (longer, deeper) = before.size, after.size
    old, new = (_wood(variant) for variant in (before, after))
    roles = [role for role in PartRole if role in old or role in new]
    return Step(
        low=low,
        high=high,
        length=longer - length,
        depth=deeper - depth,
        seats=after.layout.seats - before.layout.seats,
        seat_cushions=_all(after, "seats") - _all(before, "seats"),
        back_cushions=_all(after, "backs") - _all(before, "backs"),
        posts=after.posts - before.posts,
        wood={role: _more(old.get(role, NONE), new.get(role, NONE)) for role in roles},
        boards=more_for_boards(before.spent, after.spent),
        cushions=more_for_cushions(before.spent, after.spent),
    )


def _all(variant: Variant, kind: str) -> int:
    return sum(getattr(row, kind) for row in variant.cushions)


def _wood(variant: Variant) -> dict[PartRole, Wood]:
    counts = Counter(part.role for part in variant.parts)
    return {
        role: Wood(count, sum((part.length for part in variant.parts if part.role is role), ZERO))
        for role, count in counts.items()
    }


def _more(before: Wood, after: Wood) -> Wood:
    return Wood(after.count - before.count, after.length - before.length)


def same(values: Sequence[object]) -> bool:
    """Whether all are equal."""
    return all(value == values[0] for value in values[1:])
