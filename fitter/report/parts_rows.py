"""The rows of each table that tells of a frame."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import groupby
from math import atan2, degrees

from fitter.domain.frame import Carry
from fitter.domain.wishes import Side
from fitter.domain.woodwork import EndCut, Fixing, Housing, Joint, Part, PartRole, Slant, Spread, Woodwork
from fitter.report.parts_batches import Batch, Piece, feet, hardware, running_lengths, unmeasured
from fitter.report.parts_holes import Bore, Hole, drill, patterns
from fitter.report.parts_sides import end_name, long_side, thickness_side, width_side
from fitter.report.words import Teller, counted, run_name
from rooms.lengths import ZERO, Length, Unit
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
    for height, name in sorted(rows, key=lambda row: -row[0].units):
        yield name, tell(height)


def to_measure(woodwork: Woodwork, cut: Teller) -> Iterator[Row]:
    """Sections whose true size nobody has taped yet."""
    for section, roles in unmeasured(woodwork):
        yield section.name, cut(section.thickness), cut(section.width), listed([_plural(role) for role in roles])


def _plural(role: PartRole) -> str:
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
            yield batch.mark, _gathered(list(where)), "; ".join(shows)


def _gathered(names: Sequence[str]) -> str:
    """Names that differ only in a last number, said once: `bay 1`, `bay 2` as `bay 1, 2`."""
    groups: dict[str, list[str]] = {}
    for name in names:
        head, _, last = name.rpartition(" ")
        key, rest = (head, last) if head and last.isdigit() else (name, "")
        groups.setdefault(key, []).append(rest)
    return "; ".join(f"{key} {_numbers(rest)}" if rest[0] else key for key, rest in groups.items())


def _numbers(numbers: Sequence[str]) -> str:
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


def bored(
    told: Iterable[Batch], every: tuple[tuple[Hole, ...], ...], cut: Teller, name: Callable[[Length], str]
) -> Iterator[str]:
    """What is bored before parts are put together: into which sticks of a mark, how wide, from which side, where.

    Args:
        told: the batches.
        every: the holes of each part.
        cut: writes where a hole is.
        name: writes a drill.
    """
    for batch in told:
        for places, those in patterns(batch, every):
            which = f" {_numbers(list(map(str, places)))}" if len(places) < batch.count else ""
            for (bore, size, face, flat, width), near in _sides(those).items():
                what = f"pocket for {size}" if bore is Bore.POCKET else f"{name(width)} for {size}"
                yield f"{batch.mark}{which}, {face} {_FLAT[flat]}, {what}, {_spots(batch.first, flat, near, cut)}"


_FLAT = ("end", "edge", "face")


def _sides(holes: Sequence[Hole]) -> dict[tuple[Bore, str, str, int, Length], list[Hole]]:
    groups: dict[tuple[Bore, str, str, int, Length], list[Hole]] = {}
    for hole in holes:
        groups.setdefault((hole.bore, hole.size, hole.face, hole.flat, hole.drill), []).append(hole)
    return groups


def _spots(part: Part, flat: int, those: Sequence[Hole], cut: Teller) -> str:
    """Where holes of one side are: along it, and `at` how far across; those at the same places across together."""
    low = (width_side(part, high=False), thickness_side(part, high=False))
    names = (f"the {end_name(part, 0)} end", *(f"the {side}" for side in low))
    first, second = (axis for axis in range(3) if axis != flat)
    lines: dict[str, list[str]] = {}
    for hole in those:
        lines.setdefault(cut(hole.spot[first]), []).append(cut(hole.spot[second]))
    alike: dict[tuple[str, ...], list[str]] = {}
    for one, across in lines.items():
        alike.setdefault(tuple(across), []).append(one)
    pairs = "; ".join(f"{listed(ones)} at {listed(across)}" for across, ones in alike.items())
    return f"from {names[first]} and {names[second]}: {pairs}"


def spreads(woodwork: Woodwork, cut: Teller) -> Iterator[Row]:
    """Equal fields of slats in one row: how many over which space, with the first and the last gap."""
    for those in _fields(woodwork):
        one = those[0]
        ends = (cut(one.gaps[0]), cut(one.gaps[-1])) if one.gaps else ("", "")
        yield f"{one.count} {_plural(one.role)}", cut(one.space), *ends, cut(one.limit), _fields_where(those)


def _fields(woodwork: Woodwork) -> list[list[Spread]]:
    groups: dict[tuple[PartRole, Length, Length, tuple[Length, ...], str], list[Spread]] = {}
    for spread in woodwork.spreads:
        groups.setdefault((spread.role, spread.space, spread.slat, spread.gaps, spread.says), []).append(spread)
    return list(groups.values())


def _fields_where(those: Sequence[Spread]) -> str:
    runs: dict[Side, list[str]] = {}
    for spread in those:
        runs.setdefault(spread.run, []).append(spread.place)
    return "; ".join(f"{run_name(run)} {_gathered(places)}".strip() for run, places in runs.items())


def spread_lines(woodwork: Woodwork, cut: Teller) -> Iterator[str]:
    """Of each kind of field: every gap in its order, and why there are no fewer slats."""
    for those in _fields(woodwork):
        one = those[0]
        what = f"{counted(one.count, str(one.role))} in {cut(one.space)}"
        yield f"{what}: {_gaps(one.gaps, cut)}; {one.says}" if one.says else f"{what}: {_gaps(one.gaps, cut)}"


def _gaps(gaps: Sequence[Length], cut: Teller) -> str:
    """Gaps in their order: most are alike, and those that are not are counted out."""
    if not gaps:
        return "no gap"
    most = max(dict.fromkeys(gaps), key=gaps.count)
    others: dict[Length, list[int]] = {}
    for place, gap in enumerate(gaps, start=1):
        if gap != most:
            others.setdefault(gap, []).append(place)
    told = f"{counted(len(gaps), 'gap')} of {cut(most)}"
    for gap, places in others.items():
        told += f", but number{'s' * (len(places) > 1)} {listed([str(place) for place in places])} {cut(gap)}"
    return told


def standing(woodwork: Woodwork, tell: Teller) -> Iterator[Row]:
    """Feet that are equally high under like parts in one row, the highest first."""
    groups: dict[tuple[Length, str, str, str], int] = {}
    for foot in feet(woodwork):
        under = str(foot.under.role) if foot.under else "unknown"
        where = (foot.under.place if foot.under else "") or foot.part.place
        key = (foot.height, run_name(foot.part.run), under, where)
        groups[key] = groups.get(key, 0) + 1
    for (height, run, under, where), count in sorted(groups.items(), key=lambda item: -item[0][0].units):
        yield tell(height), str(count), run, under, where


def joints(woodwork: Woodwork, cut: Teller) -> Iterator[Row]:
    """Joints of one kind in one row: what is held to what, with what, how often, and which marks those are."""
    for (one, other, with_), those in _kinds(woodwork, cut).items():
        yield f"{one} to {other}", with_, str(len(those)), _where(woodwork, those)


def _kinds(woodwork: Woodwork, cut: Teller) -> dict[tuple[str, str, str], list[Joint]]:
    groups: dict[tuple[str, str, str], list[Joint]] = {}
    for joint in woodwork.joints:
        if joint.fasteners or joint.glued or joint.housed:
            one, other = (str(woodwork.parts[number].role) for number in joint.parts)
            groups.setdefault((one, other, joint.says or fastened(joint, cut)), []).append(joint)
    return groups


def fastened(joint: Joint, cut: Teller) -> str:
    """What holds a joint that says nothing of itself."""
    counts: dict[str, int] = {}
    for each in joint.fasteners:
        name = f"{each.size} × {cut(each.length)} {each.kind}"
        counts[name] = counts.get(name, 0) + 1
    told = [f"{count} × {name}" for name, count in counts.items()]
    told += ["glue"] if joint.glued else []
    told += ["in a housing"] if joint.housed else []
    return ", ".join(told)


def _where(woodwork: Woodwork, those: Sequence[Joint]) -> str:
    """The marks that are held, each with the marks that it is held to."""
    held: dict[str, dict[str, None]] = {}
    for joint in those:
        one, other = (woodwork.parts[number].mark for number in joint.parts)
        held.setdefault(one, {})[other] = None
    groups: dict[tuple[str, ...], list[str]] = {}
    for one, others in held.items():
        groups.setdefault(tuple(others), []).append(one)
    return "; ".join(f"{', '.join(ones)} to {', '.join(others)}" for others, ones in groups.items())


def bought_hardware(woodwork: Woodwork, unit: Unit, cut: Teller, name: Callable[[Length], str]) -> Iterator[Row]:
    """Screws, nails and bolts, counted, with the drills that they take: for the part held, and for the other one."""
    for (kind, size, length), those in hardware(woodwork).items():
        held = Bore.BOLT if kind is Fixing.BOLT else Bore.CLEARANCE
        clear = "" if kind is Fixing.NAIL else name(drill(those[0], held, unit))
        pilots = dict.fromkeys(drill(each, Bore.PILOT, unit) for each in those if each.pilot)
        pilot = ", ".join(name(width) for width in pilots)
        yield f"{size} × {cut(length)} {kind}", str(len(those)), clear, clear if kind is Fixing.BOLT else pilot


def lengths(woodwork: Woodwork, tell: Teller) -> Iterator[Row]:
    """How much of each section goes in, end to end."""
    for each, count, length in running_lengths(woodwork.parts):
        yield each.name, str(count), tell(length)


def carried(pieces: Sequence[Piece], carry: Carry | None, tell: Teller, weights: Sequence[str]) -> Iterator[Row]:
    """Each piece that is carried in: its sticks, its size, its weight, and whether it passes."""
    for piece, weight in zip(pieces, weights, strict=True):
        size = " × ".join(tell(side) for side in piece.sides)
        yield str(piece.number), counted(len(piece.parts), "part"), size, weight, _passes(piece, carry, tell)


def _passes(piece: Piece, carry: Carry | None, tell: Teller) -> str:
    if carry is None:
        return "no limit is stated"
    wrong = []
    if piece.too_wide(carry):
        wrong.append(f"wider than the way of {tell(carry.way)}")
    if piece.too_long(carry):
        wrong.append(f"longer than {tell(carry.longest)}")
    return f"no: {listed(wrong)}" if wrong else "yes"
