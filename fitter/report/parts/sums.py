"""The rows of tables that tell of the whole frame: spreads, feet, joints, what it takes, what is carried."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from fitter.domain.frame import Carry
from fitter.domain.wishes import Side
from fitter.domain.woodwork import Fixing, Joint, PartRole, Spread, Woodwork
from fitter.report.parts.batches import Piece, feet, hardware, running_lengths
from fitter.report.parts.holes import Bore, drill
from fitter.report.parts.rows import Row, gathered, plural
from fitter.report.words import Teller, counted, run_name
from rooms.lengths import Length, Unit
from rooms.survey.wording import listed


def spreads(woodwork: Woodwork, cut: Teller) -> Iterator[Row]:
    """Equal fields of slats in one row: how many over which space, with the first and the last gap."""
    for those in _fields(woodwork):
        one = those[0]
        ends = (cut(one.gaps[0]), cut(one.gaps[-1])) if one.gaps else ("", "")
        yield f"{one.count} {plural(one.role)}", cut(one.space), *ends, cut(one.limit), _fields_where(those)


def _fields(woodwork: Woodwork) -> list[list[Spread]]:
    groups: dict[tuple[PartRole, Length, Length, tuple[Length, ...], str], list[Spread]] = {}
    for spread in woodwork.spreads:
        groups.setdefault((spread.role, spread.space, spread.slat, spread.gaps, spread.says), []).append(spread)
    return list(groups.values())


def _fields_where(those: Sequence[Spread]) -> str:
    runs: dict[Side, list[str]] = {}
    for spread in those:
        runs.setdefault(spread.run, []).append(spread.place)
    return "; ".join(f"{run_name(run)} {gathered(places)}".strip() for run, places in runs.items())


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
