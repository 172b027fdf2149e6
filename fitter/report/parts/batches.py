"""Equal sticks of one run as one line of a list, and what the whole adds up to."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from fitter.domain.frame import Carry, Section
from fitter.domain.woodwork import Fastener, Fixing, Number, Part, PartRole, Woodwork
from rooms.lengths import UNITS_PER_INCH, UNITS_PER_MM, ZERO, Length

_KILOGRAMS_A_POUND = Fraction("0.45359237")  # exact by the agreement of 1959 on the pound


@dataclass(frozen=True)
class Batch:
    """All sticks of one mark.

    Args:
        mark: that they share.
        numbers: where they stand in the woodwork's list.
        parts: they themselves, at least one.
    """

    mark: str
    numbers: tuple[int, ...]
    parts: tuple[Part, ...]

    @property
    def first(self) -> Part:
        """The one that is described; the others are its equals."""
        return self.parts[0]

    @property
    def count(self) -> int:
        """How many are cut."""
        return len(self.parts)


def batches(woodwork: Woodwork) -> tuple[Batch, ...]:
    """The sticks by mark, in the order of their first ones."""
    numbers: dict[str, list[int]] = {}
    for number, part in enumerate(woodwork.parts):
        numbers.setdefault(part.mark, []).append(number)
    return tuple(
        Batch(mark, tuple(those), tuple(woodwork.parts[number] for number in those)) for mark, those in numbers.items()
    )


def running_lengths(parts: Iterable[Part]) -> tuple[tuple[Section, int, Length], ...]:
    """Of each section: how many sticks, and how long they are end to end, without kerf and waste."""
    sums: dict[Section, tuple[int, Length]] = {}
    for part in parts:
        count, length = sums.get(part.section, (0, ZERO))
        sums[part.section] = (count + 1, length + part.length)
    return tuple((section, count, length) for section, (count, length) in sums.items())


def unmeasured(woodwork: Woodwork) -> tuple[tuple[Section, tuple[PartRole, ...]], ...]:
    """Sections whose size comes from a table, and what is cut from them."""
    roles: dict[Section, dict[PartRole, None]] = {}
    for part in woodwork.parts:
        if not part.section.measured:
            roles.setdefault(part.section, {})[part.role] = None
    return tuple((section, tuple(those)) for section, those in roles.items())


def hardware(woodwork: Woodwork) -> dict[tuple[Fixing, str, Length], list[Fastener]]:
    """Screws, nails and bolts by kind, size and length; the longest of a kind last."""
    found: dict[tuple[Fixing, str, Length], list[Fastener]] = {}
    for joint in woodwork.joints:
        for each in joint.fasteners:
            found.setdefault((each.kind, each.size, each.length), []).append(each)
    order = list(Fixing)
    return dict(sorted(found.items(), key=lambda item: (order.index(item[0][0]), *item[0][1:])))


def volume(parts: Iterable[Part]) -> Fraction:
    """Of finished wood, in cubic units."""
    return sum((part.volume for part in parts), Fraction(0))


def board_feet(cubic: Fraction) -> Fraction:
    """Cubic units in board feet: a board foot is 144 cubic inches."""
    return cubic / (144 * UNITS_PER_INCH**3)


def cubic_metres(cubic: Fraction) -> Fraction:
    """Cubic units in cubic metres."""
    return cubic / (1000 * UNITS_PER_MM) ** 3


def kilograms(cubic: Fraction, density: Fraction) -> Fraction:
    """What cubic units of wood weigh.

    Args:
        cubic: the volume.
        density: in kg/m³.
    """
    return cubic_metres(cubic) * density


def pounds(kilograms: Fraction) -> Fraction:
    """Kilograms in pounds."""
    return kilograms / _KILOGRAMS_A_POUND


@dataclass(frozen=True)
class Piece:
    """What is carried in one go.

    Args:
        number: from 1.
        sides: of the box around it, the longest first.
        parts: its sticks.
    """

    number: int
    sides: tuple[Length, Length, Length]
    parts: tuple[Part, ...]

    def too_wide(self, carry: Carry) -> bool:
        """Whether even its narrowest side is wider than the way in."""
        return self.sides[2] > carry.way

    def too_long(self, carry: Carry) -> bool:
        """Whether it is longer than the longest piece that can be carried."""
        return self.sides[0] > carry.longest


def pieces(woodwork: Woodwork) -> tuple[Piece, ...]:
    """The pieces that the frame is carried in, in their order."""
    parts: dict[int, list[Part]] = {}
    for part in woodwork.parts:
        parts.setdefault(part.piece, []).append(part)
    return tuple(Piece(number, _sides(parts[number]), tuple(parts[number])) for number in sorted(parts))


def _sides(parts: list[Part]) -> tuple[Length, Length, Length]:
    """Of the box around parts, whole units that are not less than the true size, the longest first."""
    corners = [corner for part in parts for corner in part.corners]
    spans = (max(axis) - min(axis) for axis in zip(*corners, strict=True))
    long, middle, narrow = sorted((Length(ceil(span)) for span in spans), reverse=True)
    return long, middle, narrow


@dataclass(frozen=True)
class Foot:
    """A pad under what stands on the floor.

    Args:
        part: the pad.
        height: of its top above the floor below it.
        under: what stands on it.
    """

    part: Part
    height: Length
    under: Part | None


def feet(woodwork: Woodwork) -> tuple[Foot, ...]:
    """Every pad with its height, in the order of the list."""
    found = []
    for part in woodwork.parts:
        if part.role is PartRole.FOOT:
            heights = [z for _, _, z in part.corners]
            found.append(Foot(part, Length(round(max(heights) - min(heights))), _on(woodwork, part, max(heights))))
    return tuple(found)


def _on(woodwork: Woodwork, foot: Part, top: Number) -> Part | None:
    """The part that stands on a pad."""
    (x0, x1), (y0, y1) = _plan(foot)
    for part in woodwork.parts:
        if part.role is not PartRole.FOOT and min(z for _, _, z in part.corners) == top:
            (a0, a1), (b0, b1) = _plan(part)
            if a0 < x1 and x0 < a1 and b0 < y1 and y0 < b1:
                return part
    return None


def _plan(part: Part) -> tuple[tuple[Number, Number], tuple[Number, Number]]:
    xs, ys = [x for x, _, _ in part.corners], [y for _, y, _ in part.corners]
    return (min(xs), max(xs)), (min(ys), max(ys))
