"""What is bored into each part before anything is put together, told from its ends and sides."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from fitter.domain.woodwork import Part
from fitter.report.parts.batches import Batch
from fitter.report.parts.holes import Bore, Hole, patterns
from fitter.report.parts.rows import gathered, numbered
from fitter.report.parts.sides import end_name, thickness_side, width_side
from fitter.report.words import Teller
from rooms.lengths import Length
from rooms.survey.wording import listed


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
        alike = patterns(batch, every)
        names = _which(batch, [numbers for numbers, _ in alike])
        for which, (_, those) in zip(names, alike, strict=True):
            for (bore, size, face, flat, width, sunk), near in _sides(those).items():
                what = f"pocket for {size}" if bore is Bore.POCKET else f"{name(width)} for {size}"
                what += ", countersunk" if sunk else ""
                side = f"{face} {_flat(batch.first, flat)}"
                yield f"{batch.mark}{which}, {side}, {what}, {_spots(batch.first, flat, near, cut)}"


def _which(batch: Batch, groups: Sequence[tuple[int, ...]]) -> Iterator[str]:
    """What tells groups of sticks of one mark apart: where they go, else their numbers; nothing where all are alike."""
    places = [dict.fromkeys(batch.parts[number - 1].place for number in group) for group in groups]
    apart = len({place for group in places for place in group}) == sum(map(len, places))
    for group, those in zip(groups, places, strict=True):
        if len(group) == batch.count:
            yield ""
        else:
            yield f" {gathered(list(those))}" if apart else f" {numbered(list(map(str, group)))}"


def _flat(part: Part, flat: int) -> str:
    """Whether a side is an end, an edge or a face; a square stick has no edges."""
    return "face" if flat and part.width == part.thickness else ("end", "edge", "face")[flat]


def _sides(holes: Sequence[Hole]) -> dict[tuple[Bore, str, str, int, Length, bool], list[Hole]]:
    groups: dict[tuple[Bore, str, str, int, Length, bool], list[Hole]] = {}
    for hole in holes:
        key = (hole.bore, hole.size, hole.face, hole.flat, hole.drill, hole.countersunk)
        groups.setdefault(key, []).append(hole)
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
