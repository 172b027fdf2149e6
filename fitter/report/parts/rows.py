"""The rows of tables that tell of heights, of boards to measure, and of each stick."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from math import atan2, degrees

from fitter.domain.wishes import Side
from fitter.domain.woodwork import EndCut, Housing, Part, PartRole, Slant, Woodwork
from fitter.report.parts.batches import Batch, unmeasured
from fitter.report.parts.sides import end_name, long_side, thickness_side, width_side
from fitter.report.words import Teller
from rooms.lengths import ZERO, Length
from rooms.survey.wording import listed

Row = tuple[str, ...]


def levels(woodwork: Woodwork, tell: Teller, *, table: bool) -> Iterator[Row]:
    """Heights above the floor at the highest foot, from the top down."""
    at = woodwork.levels
    rows = [
        (at.back_top, "top of the backs"),
        (at.arm, "top of armed ends"),
        (at.seat, "top of a seat cushion, nobody on it"),
        (at.sat_on, "top of a seat cushion that is sat on"),
        (at.deck, "top of rails and seat slats"),
        (at.back_bottom, "underside of the backs"),
        (at.rail_bottom, "underside of the rails"),
        (at.foot, "top of the feet"),
    ]
    if table:
        rows.append((at.table, "top of the table"))
    tops = [max(z for _, _, z in part.corners) for part in woodwork.parts if part.role is PartRole.CLEAT]
    if tops:
        rows.append((Length(round(max(tops))), "top of the cleats"))
    for height, name in sorted(rows, key=lambda row: -row[0].units):
        yield name, tell(height)


def to_measure(woodwork: Woodwork, cut: Teller) -> Iterator[Row]:
    """Sections whose true size nobody has taped yet."""
    for section, roles in unmeasured(woodwork):
        yield section.name, cut(section.thickness), cut(section.width), listed([plural(role) for role in roles])


def plural(role: PartRole) -> str:
    """Several parts of a role."""
    return {PartRole.FOOT: "feet"}.get(role, f"{role}s")


def by_run(told: Iterable[Batch]) -> list[tuple[Side, list[Batch]]]:
    """Batches run by run, in the order they come."""
    runs: dict[Side, list[Batch]] = {}
    for batch in told:
        runs.setdefault(batch.first.run, []).append(batch)
    return list(runs.items())


def parts(told: Iterable[Batch], cut: Teller) -> Iterator[Row]:
    """One row for each mark: what it is, what it is cut from, how long, how many."""
    for batch in told:
        part = batch.first
        short = cut(part.short) if part.short != part.length else ""
        yield batch.mark, str(part.role), section(part, cut), cut(part.length), short, str(batch.count)


def section(part: Part, cut: Teller) -> str:
    """What a part is cut from, with its size where it is ripped or planed down (sizes are rounded up to the mark)."""
    ripped = []
    if part.width < part.section.width:
        ripped.append(f"{cut(part.width)} wide")
    if part.thickness < part.section.thickness:
        ripped.append(f"{cut(part.thickness)} thick")
    return f"{part.section.name}, {', '.join(ripped)}" if ripped else part.section.name


def places(told: Iterable[Batch]) -> Iterator[Row]:
    """Where the sticks of each mark go, and which side shows."""
    for batch in told:
        where = dict.fromkeys(part.place for part in batch.parts if part.place)
        shows = dict.fromkeys(part.shows for part in batch.parts if part.shows)
        if where or shows:
            yield batch.mark, gathered(list(where)), "; ".join(shows)


def gathered(names: Sequence[str]) -> str:
    """Names that differ only in a last number, said once: `bay 1`, `bay 2` as `bay 1, 2`."""
    groups: dict[str, list[str]] = {}
    for name in names:
        head, _, last = name.rpartition(" ")
        key, rest = (head, last) if head and last.isdigit() else (name, "")
        groups.setdefault(key, []).append(rest)
    return "; ".join(f"{key} {numbered(rest)}" if rest[0] else key for key, rest in groups.items())


def numbered(numbers: Sequence[str]) -> str:
    """Numbers in order, runs of three and more as `1-4`."""
    whole = sorted({int(number) for number in numbers if number})
    spans = []
    for _, each in groupby(enumerate(whole), key=lambda pair: pair[1] - pair[0]):
        run = [number for _, number in each]
        spans.append(f"{run[0]}-{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)))
    return ", ".join(spans)


def angle(part: Part, cut: EndCut) -> float:
    """How far an end is from square, in degrees; only to be told, never to be cut by."""
    size = part.width if cut.over is Slant.WIDTH else part.thickness
    return degrees(atan2(cut.recess.units, size.units))


def slanted(told: Iterable[Batch], cut: Teller) -> Iterator[Row]:
    """Each end that is not square: how far the saw is turned, across which side, and where the long point is."""
    for batch in told:
        part = batch.first
        rows = [
            (end_name(part, which), (_turn(part, end), cut(end.recess), f"{long_side(part, end)} side"))
            for which, end in enumerate(part.cuts)
            if not end.square
        ]
        if len(rows) == 2 and rows[0][1] == rows[1][1]:
            rows = [("both", rows[0][1])]
        yield from ((batch.mark, end, *cuts) for end, cuts in rows)


def _turn(part: Part, end: EndCut) -> str:
    over = "wide face" if end.over is Slant.WIDTH else "edge"
    if part.width == part.thickness:
        over = "face"
    return f"{round(angle(part, end), 2):g}° across the {over}"


def housed(told: Iterable[Batch], cut: Teller) -> Iterator[Row]:
    """Each housing: how far from which end, from which edge, and how deep from which face."""
    for batch in told:
        for housing in batch.first.housings:
            yield batch.mark, *_housing(batch.first, housing, cut)


def _housing(part: Part, housing: Housing, cut: Teller) -> Iterator[str]:
    yield f"{_span(housing.a0, housing.a1, cut)} from the {end_name(part, 0)} end"
    spans = (
        (housing.b0, housing.b1, part.width, width_side),
        (housing.c0, housing.c1, part.thickness, thickness_side),
    )
    # A housing is sunk from the side that it opens on and does not reach through from.
    sunk = 0 if (housing.b0 == ZERO) != (housing.b1 == part.width) else 1
    low, high, size, side = spans[1 - sunk]
    if low == ZERO and high == size:
        yield "the whole width"
    else:
        yield f"{_span(low, high, cut)} from the {side(part, high=False)} side"
    low, high, size, side = spans[sunk]
    yield f"{cut(high - low)} from the {side(part, high=high == size)} side"


def _span(low: Length, high: Length, cut: Teller) -> str:
    return f"{cut(low)} to {cut(high)}"
