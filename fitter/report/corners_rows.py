"""The rows of each table of the corner trade-off."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from fitter.domain.project import Project
from fitter.domain.tradeoff import Bar, Measure, Step, TradeOff, Treatment, arms, bare_area, ground
from fitter.domain.wishes import CornerKind
from fitter.report.corners_units import Units
from fitter.report.words import Teller, money
from rooms.survey.wording import listed

Row = tuple[str, ...]

SPACE_HEADS = ("treatment", "outcome", "seats", "length", "depth", "ground", "beaten by")
# Heads of two lines; those of one stand on the second.
CUSHION_HEADS = ("\ntreatment", "\nnotch", "\nfoam cut", "gap\nbehind", "left\nbare", "can be\nundone")
_ARMS_HEAD = "armed\nends"
WORTH_HEADS = (
    "\ntreatment", "boards\ncost", "cushions\ncost", "total\ncost", "wood\nparts", "\nstiffness", "backs\nheld by"
)  # fmt: skip
RIGHT = ("seats", "length", "depth", "ground", _ARMS_HEAD, *WORTH_HEADS[1:6], "sq ft", "m²", "cost")
"""Heads of columns of numbers, which end alike."""
BARS = {
    Bar.FOAM: "must cut",
    Bar.TIPS: "tips",
    Bar.ROOM: "not found",
    Bar.ELSEWHERE: "elsewhere",
    Bar.NONE: "none fits",
}
"""Why a step cannot be had, in short."""

_NONE = "none"


def step_heads(units: Units) -> Row:
    """The heads of the table of steps."""
    area = "sq ft" if units.imperial else "m²"
    return "post", "ease", "overhang", "notch", "longer", "deeper", area, "cost", "answer"


def space(made: TradeOff, units: Units) -> Iterator[Row]:
    """How each treatment stands, what it seats, on what ground, with how many sticks."""
    for each in made.treatments:
        name, layout, built = _name(made, each), each.layout, each.built
        if layout is None or built is None:
            yield name, str(each.fit.verdict), *("–",) * 5
            continue
        on = ground(layout.footprint)
        size = units.tell(on.long), units.tell(on.deep), units.area(on.area)
        beaten = ", ".join(map(str, made.dominated_by(each.corner))) or "–"
        yield name, str(each.fit.verdict), str(layout.seats), *size, beaten


def _name(made: TradeOff, treatment: Treatment) -> str:
    return f"{treatment.corner}*" if treatment.corner is made.asked else str(treatment.corner)


def cushions(made: TradeOff, units: Units, cut: Teller) -> Iterator[Row]:
    """What it does to the cushions, and what they leave open."""
    for each in made.treatments:
        layout, built = each.layout, each.built
        if layout is None or built is None:
            continue
        notches = [module.notch for module in layout.corners if module.notch]
        notch = max(notches, key=lambda notch: notch.along_x.units, default=None)
        told = f"{cut(notch.along_x)} × {cut(notch.along_y)}" if notch else _NONE
        if notch is not None and notch.depth is not None:
            told = f"{cut(notch.depth)} deep along {cut(notch.along_x)} and {cut(notch.along_y)}"
        foam = units.volume(built.foam) if built.foam else _NONE
        gap = cut(layout.gap) if layout.gap else _NONE
        bare = bare_area(layout)
        yield str(each.corner), told, foam, gap, units.patch(bare) if bare else _NONE, _undone(each)


def _undone(treatment: Treatment) -> str:
    layout = treatment.layout
    assert layout is not None
    if treatment.reversible:
        return "yes"
    return f"no: {layout.notches} cut"


def worth_heads(made: TradeOff) -> Row:
    """The heads of the table of worth: armed ends only where they differ."""
    return (WORTH_HEADS[0], _ARMS_HEAD, *WORTH_HEADS[1:]) if made.arms_differ else WORTH_HEADS


def worth(made: TradeOff, units: Units) -> Iterator[Row]:
    """Armed ends where they differ, money and stiffness."""
    for each in made.treatments:
        layout, built = each.layout, each.built
        if layout is None or built is None:
            continue
        stiff = "unknown" if built.stiffness is None else units.stiffness(built.stiffness)
        sums = (built.boards, built.cushions, built.money)
        ends = (str(arms(layout)),) if made.arms_differ else ()
        yield str(each.corner), *ends, *map(_cents, sums), str(built.parts), stiff, _held(built.held)


def _held(told: str) -> str:
    """What holds the backs, in short."""
    return told.replace("corner ", "").replace(" and ", ", ") or "nothing"


def _cents(cents: int | None) -> str:
    return "unknown" if cents is None else money(Fraction(cents, 100))


def steps(project: Project, made: TradeOff, units: Units, cut: Teller) -> Iterator[Row]:
    """An inside post with other sizes: what is left of its notch, what that takes, and whether it is to be had."""
    for step in made.steps:
        ease = f"+{cut(step.more)}" if step.more else "as is"
        cents = "–" if step.cents is None else money(Fraction(step.cents, 100))
        yield (
            step.post.name,
            ease,
            cut(step.overhang) if step.overhang else _NONE,
            cut(step.notch) if step.notch else _NONE,
            f"+{cut(step.longer)}" if step.longer else _NONE,
            f"+{cut(step.deeper)}" if step.deeper else _NONE,
            units.area(step.ground.area).partition(" ")[0],
            cents,
            mark(step),
        )


def mark(step: Step) -> str:
    """Whether another step betters one, or why it cannot be had."""
    if step.bar is not None:
        return BARS[step.bar]
    return "unbeaten" if step.front else "beaten"


def _measure(measure: Measure) -> str:
    """What is compared, by the head of its column."""
    heads = {Measure.GROUND: "ground", Measure.MONEY: "total cost", Measure.UNDONE: "whether it can be undone"}
    return heads.get(measure, str(measure))


def compared(made: TradeOff) -> str:
    """What beaten means: what was compared, and what was not."""
    said = (
        "A treatment is beaten by another that does at least as well in all of these, and better in one: "
        f"{listed([_measure(measure) for measure in made.compared])}."
    )
    left = [_measure(measure) for measure in Measure if measure not in made.compared]
    return f"{said} Not known of all, and so not compared: {listed(left)}." if left else said


def asked_note(made: TradeOff) -> str:
    """What the star stands for."""
    return f"* the treatment that the file asks for: {made.asked}" if isinstance(made.asked, CornerKind) else ""


def page_heads() -> Row:
    """The heads of the one table on the page."""
    return (
        "treatment", "outcome", "seats", "ground", "foam cut", "gap behind", "left bare", "wood parts", "boards cost",
        "total cost", "stiffness", "can be undone", "cushions",
    )  # fmt: skip


def page_rows(made: TradeOff, units: Units, cut: Teller) -> Iterator[Row]:
    """One row for each treatment with all that is compared."""
    laid = {row[0]: row[1:] for row in cushions(made, units, cut)}
    sums = {row[0]: row[1:] for row in worth(made, units)}
    for each in made.treatments:
        name, layout = str(each.corner), each.layout
        if layout is None or name not in sums:
            yield name, str(each.fit.verdict), *("",) * 11
            continue
        notch, foam, gap, bare, _ = laid[name]
        boards, _, together, parts, stiff, _ = sums[name][-6:]
        area = units.area(ground(layout.footprint).area)
        seats = f"{layout.seats}, {arms(layout)} armed" if made.arms_differ else str(layout.seats)
        counts = seats, area, foam, gap, bare, parts, boards, together, stiff
        told = f"cut {notch}" if layout.notches else "whole" if each.corner.cushioned else "whole, none in corners"
        yield name, str(each.fit.verdict), *counts, "yes" if each.reversible else "no", told
