"""How the values of a sweep are written: the varied number exactly, and what is shown of each answer."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction

from fitter.domain.amounts import Amount, Quantity
from fitter.domain.layout import Verdict
from fitter.domain.sweeps import Shown, Stretch, Sweep, Value
from fitter.report.words import Teller, counted, money
from rooms.lengths import Length, Unit, format_length

AmountTeller = Callable[[Amount], str]

HEADS = {
    Shown.SEATS: "seats",
    Shown.LAYOUT: "layout",
    Shown.COST: "money",
    Shown.NOTCHED: "notched",
    Shown.TALL: "no tall post",
    Shown.BUY: "to buy",
    Shown.POSTS: "posts",
    Shown.LENGTHS: "lengths",
    Shown.OFF_EDGE: "off edge",
    Shown.AREA: "area",
}
"""Heads of columns; a verdict has a column of its own in any case."""

NOTHING = "-"
_FINEST = (16, 32, 64)


def amount_teller(unit: Unit, amounts: Iterable[Amount], denominator: int = 16) -> AmountTeller:
    """A function that writes amounts of one kind, all as fine as the finest of them needs.

    Args:
        unit: of the file.
        amounts: that will be written.
        denominator: finest fraction of an inch that is wanted, where coarser ones do.
    """
    lengths = [amount.length for amount in amounts if amount.quantity is Quantity.LENGTH]
    fine = [size for size in _FINEST if size >= denominator]
    finest = next((size for size in fine if all(length.units * size % 8128 == 0 for length in lengths)), None)
    whole = all(length.units % 320 == 0 for length in lengths)

    def tell(amount: Amount) -> str:
        if amount.quantity is not Quantity.LENGTH:
            return _plain(amount)
        if (unit.imperial and finest is None) or not (unit.imperial or whole):
            return f"{float(amount.length.mm):.10g} mm"
        return format_length(amount.length, unit, denominator=finest or 16)

    return tell


def _plain(amount: Amount) -> str:
    number = amount.number
    if amount.quantity is Quantity.MONEY:
        return money(number) if (100 * number).denominator == 1 else f"{float(number):.10g}"
    if amount.quantity in (Quantity.SHARE, Quantity.FALL):
        return f"{float(100 * number):.10g} %"
    return f"{float(number):.10g}{'°' if amount.quantity is Quantity.ANGLE else ''}"


def value_words(shown: Shown, value: Value, mark: Length, unit: Unit, tell: Teller, *, seats: bool) -> str:
    """What is shown of an answer, in words.

    Args:
        shown: what the value is.
        value: it.
        mark: the shop mark that distances are counted in.
        unit: of the file.
        tell: writes lengths.
        seats: whether the words of a layout tell its seats, too.
    """
    if isinstance(value, tuple):
        return heading_words(value, seats=seats) if shown is Shown.LAYOUT else value[0]
    if value is None:
        return "no price" if shown is Shown.COST else NOTHING
    if shown is Shown.COST:
        return money(Fraction(value, 100))
    if shown is Shown.OFF_EDGE:
        return tell(mark * value)
    if shown is Shown.AREA:
        return area_words(value, unit)
    return str(value)


def heading_words(heading: tuple[str, ...], *, seats: bool = True) -> str:
    """A layout in a word.

    >>> heading_words(("L", "8", "left", "inside post"))
    'L, 8 seats, short run on the left, inside post'
    """
    shape, places, hand, corner = heading
    told = [shape, counted(int(places), "seat") if seats else "", f"short run on the {hand}" if hand else "", corner]
    return ", ".join(word for word in told if word)


def area_words(units: int, unit: Unit) -> str:
    """An area to a tenth of a square foot or a hundredth of a square metre.

    >>> area_words(Length.inches(144).units * Length.inches(12).units, Unit.IN)
    '12.0 sq ft'
    """
    one = Unit.FT.one.units if unit.imperial else Unit.M.one.units
    square = Fraction(units, one * one)
    return f"{float(square):.1f} sq ft" if unit.imperial else f"{float(square):.2f} m²"


def answer_word(stretch: Stretch) -> str:
    """How the answer of a stretch stands."""
    verdict = stretch.look.verdict
    if verdict is None:
        return "file is wrong"
    return "found, not proven" if verdict is Verdict.FOUND else str(verdict)


def effort(sweep: Sweep) -> str:
    """How many solves told of how many values."""
    sound = sum(stretch.count for stretch in sweep.stretches if stretch.look.verdict is not None)
    values, solves = counted(sound, "value"), counted(sweep.solves, "search", "searches")
    if sweep.interrupted:
        return f"Stopped by you after {solves}; what was not reached is unknown."
    if not sweep.related and sound > 1:
        return f"Every value solved ({sound}): nothing is known of how `{sweep.name}` bears on those between."
    unproven = any(each.look.verdict in (Verdict.FOUND, Verdict.UNKNOWN) for each in sweep.stretches)
    if unproven:
        return f"{values} answered by {solves}; where time ran out, nothing is proven of values between."
    return f"{values} answered by {solves}; that the answer changes nowhere else is proven."
