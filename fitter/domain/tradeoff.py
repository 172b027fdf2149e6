"""What each corner treatment gives and takes, measured alike, and which of them another one beats in everything."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from itertools import pairwise

from fitter.domain.cushions import Cushion
from fitter.domain.findings import Finding
from fitter.domain.frame import Frame, Section
from fitter.domain.layout import Box, Layout, Verdict
from fitter.domain.outcome import FitResult, LayoutResult
from fitter.domain.wishes import CornerKind, EndKind
from rooms.lengths import Length


class Measure(StrEnum):
    """What treatments are compared by."""

    SEATS = "seats"
    ARMS = "armed ends"
    FOAM = "foam cut"
    GROUND = "footprint"
    GAP = "gap behind"
    BARE = "left bare"
    MONEY = "money"
    STIFF = "stiffness"
    UNDONE = "can be undone"


@dataclass(frozen=True)
class Ground:
    """What a layout covers of the ground.

    Args:
        long: along the main run, everything included.
        deep: across it.
        area: of the union of its footprint boxes, in square units of `rooms.lengths`; exact.
    """

    long: Length
    deep: Length
    area: int


def ground(boxes: Sequence[Box]) -> Ground:
    """The size and the area of some boxes together.

    >>> foot = Length.inches(12)
    >>> zero = Length(0)
    >>> both = ground([Box(zero, zero, 3 * foot, foot), Box(zero, zero, foot, 2 * foot)])
    >>> both.long == 3 * foot, both.deep == 2 * foot, both.area == 4 * foot.units**2
    (True, True, True)
    """
    xs = sorted({x.units for box in boxes for x in (box.x0, box.x1)})
    area = 0
    for low, high in pairwise(xs):
        across = sorted((box.y0.units, box.y1.units) for box in boxes if box.x0.units <= low and high <= box.x1.units)
        area += (high - low) * _covered(across)
    deep = max(box.y1.units for box in boxes) - min(box.y0.units for box in boxes)
    return Ground(Length(xs[-1] - xs[0]), Length(deep), area)


def _covered(spans: Iterable[tuple[int, int]]) -> int:
    """The length of the union of spans, in rising order."""
    total, reached = 0, None
    for low, high in spans:
        start = low if reached is None else max(low, reached)
        total += max(0, high - start)
        reached = high if reached is None else max(reached, high)
    return total


def bare_area(layout: Layout) -> int:
    """What the cushions of the corner places leave bare there, square units."""
    return sum(
        (strip.x1 - strip.x0).units * (strip.y1 - strip.y0).units for place in layout.corners for strip in place.bare
    )


def arms(layout: Layout) -> int:
    """How many ends are armed: they are wood to pay for, which an open end is not."""
    return sum(end.kind is EndKind.ARMED for end in layout.ends)


@dataclass(frozen=True)
class Built:
    """What the frame of a treatment's layout comes to.

    Args:
        parts: sticks of wood.
        boards: what they cost, in cents; None where no board has a price.
        covered: whether that counts every part.
        cushions: what those to buy cost, in cents; None where one has no price.
        foam: volume that is cut from cushions, cubic units of `rooms.lengths`; exact.
        stiffness: of the weakest corner, N·mm/rad about the upright axis; None where it is not known.
        held: what holds the backs there.
        checked: what the proof of the frame and its boards holds against them; anything there is a fault.
    """

    parts: int
    boards: int | None
    covered: bool
    cushions: int | None
    foam: int
    stiffness: float | None
    held: str
    checked: tuple[Finding, ...] = ()

    @property
    def money(self) -> int | None:
        """All boards and the cushions to buy, in cents, where both are known."""
        return None if self.boards is None or self.cushions is None else self.boards + self.cushions


@dataclass(frozen=True)
class Treatment:
    """One corner treatment, solved in the room under the wishes of the file.

    Args:
        corner: the treatment.
        fit: its answer; the best layout that has a corner first.
        built: its frame; None without a layout.
        straight: seats of a straight run, where that beats every layout with a corner; None otherwise.
    """

    corner: CornerKind
    fit: FitResult
    built: Built | None = None
    straight: int | None = None

    @property
    def shown(self) -> LayoutResult | None:
        """The layout, if there is one."""
        return self.fit.layouts[0] if self.fit.layouts else None

    @property
    def layout(self) -> Layout | None:
        """The same without its proofs."""
        return self.shown.layout if self.shown else None

    @property
    def faults(self) -> tuple[Finding, ...]:
        """What the checks hold against our own layout, frame or boards."""
        return (*self.fit.checked, *(self.built.checked if self.built else ()))

    @property
    def reversible(self) -> bool:
        """Whether it can be undone with no new cushion: wood can be bought again by the foot, foam is cut for good."""
        return self.layout is not None and self.layout.notches == 0


def measured(treatment: Treatment) -> Mapping[Measure, Fraction | None]:
    """What a treatment comes to in each measure; None where it is not known. See `better`."""
    layout, built = treatment.layout, treatment.built
    if layout is None or built is None:
        return {}
    # Stiffness is an estimate: three digits of it count.
    stiff = None if built.stiffness is None else Fraction(f"{built.stiffness:.2e}")
    return {
        Measure.SEATS: Fraction(layout.seats),
        Measure.ARMS: Fraction(arms(layout)),
        Measure.FOAM: Fraction(built.foam),
        Measure.GROUND: Fraction(ground(layout.footprint).area),
        Measure.GAP: Fraction(layout.gap.units),
        Measure.BARE: Fraction(bare_area(layout)),
        Measure.MONEY: None if built.money is None else Fraction(built.money),
        Measure.STIFF: stiff,
        Measure.UNDONE: Fraction(treatment.reversible),
    }


_MORE = (Measure.SEATS, Measure.ARMS, Measure.STIFF, Measure.UNDONE)


def better(measure: Measure, one: Fraction, other: Fraction) -> bool:
    """Whether the first value is better: more seats or arms, stiffer, undone rather than not; less of all else."""
    return one > other if measure in _MORE else one < other


@dataclass(frozen=True)
class TradeOff:
    """All corner treatments of a project, side by side.

    Args:
        treatments: one each, in their usual order.
        asked: the treatment that the file asks for; None for any.
        steps: how the notch of an inside post shrinks; none where no layout has cushions in its corners.
        start: the treatment whose arrangement the steps keep.
        straight: the best straight run, where one was looked for.
        interrupted: whether the user stopped the solver.
    """

    treatments: tuple[Treatment, ...]
    asked: CornerKind | None = None
    steps: tuple[Step, ...] = ()
    start: CornerKind | None = None
    straight: FitResult | None = None
    interrupted: bool = False

    @property
    def verdict(self) -> Verdict:
        """How the whole stands: proven if every treatment is, or is proven impossible."""
        found = [treatment.fit.verdict for treatment in self.treatments]
        if Verdict.FAULT in found or self.faults:
            return Verdict.FAULT
        if any(verdict in (Verdict.FOUND, Verdict.UNKNOWN) for verdict in found):
            return Verdict.FOUND if any(treatment.layout for treatment in self.treatments) else Verdict.UNKNOWN
        return Verdict.PROVEN if Verdict.PROVEN in found else Verdict.IMPOSSIBLE

    @property
    def faults(self) -> tuple[Finding, ...]:
        """What the checks hold against anything in it."""
        return tuple(finding for treatment in self.treatments for finding in treatment.faults)

    @property
    def arms_differ(self) -> bool:
        """Whether the treatments end in different ways, so that their costs are of different things."""
        return len({arms(each.layout) for each in self.treatments if each.layout}) > 1

    @property
    def compared(self) -> tuple[Measure, ...]:
        """The measures that are known for every treatment that has a layout."""
        values = [values for treatment in self.treatments if (values := measured(treatment))]
        return tuple(measure for measure in Measure if values and all(each[measure] is not None for each in values))

    def dominated_by(self, corner: CornerKind) -> tuple[CornerKind, ...]:
        """The treatments that are as good as this one in every compared measure, and better in one at least."""
        all_values = {treatment.corner: measured(treatment) for treatment in self.treatments}
        own = all_values[corner]
        return tuple(
            other for other, values in all_values.items() if own and values and dominates(values, own, self.compared)
        )


def dominates(
    one: Mapping[Measure, Fraction | None], other: Mapping[Measure, Fraction | None], compared: Iterable[Measure]
) -> bool:
    """Whether the first is at least as good in every measure, and better in one at least."""
    wins = losses = 0
    for measure in compared:
        a, b = one[measure], other[measure]
        if a is not None and b is not None:
            wins += better(measure, a, b)
            losses += better(measure, b, a)
    return wins > 0 and losses == 0


class Bar(StrEnum):
    """Why an inside post of some sizes cannot be had."""

    FOAM = "a cushion that may not be cut would have to be"
    TIPS = "more than a third of a cushion would hang over, and tip"
    ROOM = "no place was found for this arrangement"
    ELSEWHERE = "only another arrangement with as many seats fits"
    NONE = "proven that no arrangement with as many seats fits"


@dataclass(frozen=True)
class Step:
    """An inside post with other sizes, in an arrangement that is kept.

    Args:
        post: its section.
        more: added to the ease of every cushion.
        overhang: of the cushions.
        notch: how far it is cut, the same both ways; of the corner that needs more.
        ground: what the whole covers.
        longer: along the main run, than with the sizes of the file.
        deeper: the same across it.
        larger: in area, square units.
        gap: how far cushions lie off the backs.
        cents: what boards cost, of the wood that the layout decides on; None where not known, or it does not fit.
        bar: why it cannot be had here; None where it can.
        front: whether no other step that fits has as small a notch, ground and cost, and one of them smaller.
    """

    post: Section
    more: Length
    overhang: Length
    notch: Length
    ground: Ground
    longer: Length
    deeper: Length
    larger: int
    gap: Length
    cents: int | None
    bar: Bar | None
    front: bool = False

    @property
    def fits(self) -> bool:
        """Whether it can be had in this room with these cushions."""
        return self.bar is None


def fronted(steps: Sequence[Step]) -> tuple[bool, ...]:
    """Which steps are not dominated, among those that fit.

    Cost counts only where it is known of every step that fits; of equal ones the first stands for all.
    """
    priced = all(step.cents is not None for step in steps if step.fits)

    def values(step: Step) -> tuple[int, ...]:
        cost = (step.cents,) if priced and step.cents is not None else ()
        return step.notch.units, step.ground.area, *cost

    found = []
    for n, step in enumerate(steps):
        own = values(step)
        others = [(m, values(other)) for m, other in enumerate(steps) if other.fits and m != n]
        beaten = any(
            all(a <= b for a, b in zip(theirs, own, strict=True)) and (theirs != own or m < n) for m, theirs in others
        )
        found.append(step.fits and not beaten)
    return tuple(found)


def stride(notch: Length, imperial: bool) -> Length:
    """Steps in which a notch is made smaller: the smallest usual one that takes at most four steps to nothing."""
    usual = [Length.inches(each) for each in ("1/8", "1/4", "1/2", "1", "2", "4")]
    metric = [Length.millimetres(each) for each in (2, 5, 10, 20, 50, 100)]
    sizes = usual if imperial else metric
    return next((size for size in sizes if notch.units <= 4 * size.units), sizes[-1])


def shrinking(notch: Length, imperial: bool) -> tuple[Length, ...]:
    """By how much a notch is made smaller, step by step, until nothing is left of it.

    >>> [str(each.inch) for each in shrinking(Length.inches("29/8"), True)]
    ['1', '2', '3', '29/8']
    """
    step = stride(notch, imperial)
    found, reached = [], step
    while reached.units < notch.units:
        found.append(reached)
        reached += step
    return (*found, notch) if notch.units > 0 else ()


def notch_depth(frame: Frame, cushion: Cushion, wood: Length, mark: Length) -> Length:
    """How deep wood that stands so far into a corner place cuts into the cushion there.

    n(k) = k + notch clearance − half the ease − overhang, at least nothing, up to the mark; wood and overhang are
    rounded up to the mark first, as in every layout.
    """
    twice = 2 * (wood.ceil_to(mark) + frame.notch_clearance - frame.overhang.ceil_to(mark)) - cushion.ease
    return Length(max(0, -(-twice.units // 2))).ceil_to(mark)
