"""What one module more takes, as rows step by step, and in a sentence that says only what the steps have in common."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from fitter.domain.growth import Growth, Step, Wood, same, wood_of
from fitter.domain.spending import Unknown
from fitter.domain.wishes import Side
from fitter.domain.woodwork import PartRole
from fitter.report.parts.rows import plural
from fitter.report.variants.names import UNKNOWN, signed, signed_cents, signed_length, signed_more
from fitter.report.words import Teller, counted, money, run_name
from rooms.lengths import Length
from rooms.survey.wording import listed

Row = tuple[str, ...]
LEGEND = "Of wood the table tells how many more pieces, then how much more length end to end."
"""What a cell of the table of a run says."""


def heads(growth: Growth) -> Row:
    """Of the table of a run: a column for each step."""
    return (f"{_run(growth)}, modules", *(f"{step.low} to {step.high}" for step in growth.steps))


def rows(growth: Growth, tell: Teller, cut: Teller) -> Iterator[Row]:
    """One row for each thing that changes in some step; of sticks how many, and their length end to end."""
    for what, value in _sizes(tell):
        if any(value(step) != "0" for step in growth.steps):
            yield what, *(value(step) for step in growth.steps)
    for role in growth.roles:
        yield plural(role), *(_wood(wood_of(step, role), cut) for step in growth.steps)
    paid = (("boards", [step.boards for step in growth.steps]), ("cushions", [step.cushions for step in growth.steps]))
    for what, amounts in paid:
        cells = [signed_more(amount) for amount in amounts]
        if any(cell != UNKNOWN for cell in cells):
            yield f"cost of {what}", *cells


def _run(growth: Growth) -> str:
    return "main run" if growth.run is Side.MAIN else run_name(growth.run)


def _sizes(tell: Teller) -> tuple[tuple[str, Callable[[Step], str]], ...]:
    return (
        ("length over all", lambda s: signed_length(s.length, tell)),
        ("depth over all", lambda s: signed_length(s.depth, tell)),
        ("seats", lambda s: signed(s.seats)),
        ("seat cushions", lambda s: signed(s.seat_cushions)),
        ("back cushions", lambda s: signed(s.back_cushions)),
        ("posts", lambda s: signed(s.posts)),
    )


def _wood(wood: Wood, cut: Teller) -> str:
    """How many more sticks, then how much more wood.

    Sticks that only grow longer have no count.
    """
    if not wood.count:
        return signed_length(wood.length, cut)
    return f"{signed(wood.count)}, {signed_length(wood.length, cut)}"


def sentences(growth: Growth, tell: Teller, cut: Teller) -> Iterator[str]:
    """What every step has in common, then what is not regular."""
    first, last = growth.steps[0].low, growth.steps[-1].high
    common = [*_grown(growth, tell), *_regular(growth, cut), *_money(growth)]
    yield f"Each module added to the {_run(growth)}, from {first} to {last}: {', '.join(common)}."
    if posts := _uneven_posts(growth):
        yield f"Posts do not come evenly: {posts}."
    if laws := list(_laws(growth, cut)):
        yield f"Rails laid end to end grow with each module: {'; '.join(laws)}."
    if uneven := list(_uneven(growth)):
        yield f"How many are added differs from step to step: {', '.join(uneven)}."


def _grown(growth: Growth, tell: Teller) -> Iterator[str]:
    """Sizes, seats, cushions and posts that are the same at every step."""
    sizes = (("length", [step.length for step in growth.steps]), ("depth", [step.depth for step in growth.steps]))
    for what, lengths in sizes:
        if same(lengths) and lengths[0]:
            yield f"{what} {signed_length(lengths[0], tell)}{_pitch(growth, lengths[0])}"
    counts: tuple[tuple[str, Callable[[Step], int]], ...] = (
        ("seat", lambda s: s.seats),
        ("seat cushion", lambda s: s.seat_cushions),
        ("back cushion", lambda s: s.back_cushions),
        ("post", lambda s: s.posts),
    )
    for what, count in counts:
        numbers = [count(step) for step in growth.steps]
        if same(numbers) and numbers[0] > 0:
            yield counted(numbers[0], what)


def _pitch(growth: Growth, length: Length) -> str:
    return " (one pitch)" if length == growth.pitch else ""


def _regular(growth: Growth, cut: Teller) -> Iterator[str]:
    """Sticks of a role that take the same at every step."""
    for role, wood in _by_role(growth):
        if same(wood) and wood[0].count:
            yield f"{plural(role)} {_wood(wood[0], cut)}"
        elif same(wood):
            yield f"{plural(role)} {signed_length(wood[0].length, cut)} in all{_pitch(growth, wood[0].length)}"
        elif same([each.count for each in wood]) and wood[0].count:
            yield f"{plural(role)} {signed(wood[0].count)}"


def _by_role(growth: Growth) -> Iterator[tuple[PartRole, list[Wood]]]:
    for role in growth.roles:
        yield role, [wood_of(step, role) for step in growth.steps]


def _money(growth: Growth) -> Iterator[str]:
    """Boards on average, with the least and the most; cushions where they cost the same each time."""
    mean = growth.mean_boards
    if mean is not None:
        known = [step.boards.cents for step in growth.steps if step.boards.cents is not None]
        least, most = signed_cents(min(known)), signed_cents(max(known))
        told = f"boards cost {least}" if least == most else f"boards cost {_mean(mean)} on average ({least} to {most})"
        whole = all(step.boards.unknown is Unknown.NOTHING for step in growth.steps)
        yield told if whole else f"{told} for those whose price is known"
    paid = [step.cushions for step in growth.steps]
    if same(paid) and paid[0].exact is not None:
        yield f"cushions cost {signed_cents(paid[0].exact)}"


def _mean(cents: Fraction) -> str:
    return f"{'-' if cents < 0 else '+'}{money(abs(cents) / 100)}"


def _uneven_posts(growth: Growth) -> str:
    """At which steps posts are added or fall away; empty where that is the same at all."""
    if same([step.posts for step in growth.steps]):
        return ""
    return ", ".join(
        f"{counted(abs(step.posts), 'post') if step.posts else 'none'}{' less' if step.posts < 0 else ''}"
        f"{' more' if step.posts > 0 else ''} from {step.low} to {step.high} modules"
        for step in growth.steps
    )


_RAILS = (PartRole.FRONT_RAIL, PartRole.BACK_RAIL, PartRole.BOTTOM_RAIL, PartRole.TOP_RAIL)


def _laws(growth: Growth, cut: Teller) -> Iterator[str]:
    """Rails that grow by one pitch, less the same for each rail more, at every single step."""
    alike: dict[Length, list[str]] = {}
    for role in _RAILS:
        less = _less(growth, role)
        if less is not None:
            alike.setdefault(less, []).append(plural(role))
    for less, names in alike.items():
        yield f"{listed(names)} by one pitch ({cut(growth.pitch)}), less {cut(less)} for each rail that is added"


def _less(growth: Growth, role: PartRole) -> Length | None:
    """By how much less than a pitch the rails of a role grow for each rail more; None where that is no rule."""
    wood = [wood_of(step, role) for step in growth.steps]
    less = {Fraction((growth.pitch - each.length).units, each.count) for each in wood if each.count}
    whole = all(each.length == growth.pitch for each in wood if not each.count)
    if same(wood) or not whole or len(less) != 1:
        return None
    (each,) = less
    return Length(int(each)) if each.denominator == 1 and each > 0 else None


def _uneven(growth: Growth) -> Iterator[str]:
    """Roles whose number does not grow evenly, from the least to the most."""
    for role, wood in _by_role(growth):
        counts = [each.count for each in wood]
        if not same(counts) and _less(growth, role) is None:
            yield f"{plural(role)} {signed(min(counts))} to {signed(max(counts))}"
