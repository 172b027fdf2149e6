"""Clearances that codes, standards and habit ask for: what a layout is held against, each with its source.

Nothing here stops a layout by itself. Local codes decide, and what is written for public buildings is a benchmark at
home; `wish.strict` makes those that a user names a check that fails.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from fitter.domain.evidence import Source, Status
from rooms.lengths import Length, Unit


class Topic(StrEnum):
    """What a finding about clearances is about; the words that `wish.strict` takes."""

    ROUTES = "routes"
    TURNS = "turns"
    DOORS = "doors"
    GUARDS = "guards"
    STEPS = "steps"
    FLAMES = "flames"
    REACH = "reach"


class Weight(StrEnum):
    """What a number asks of someone who builds at home."""

    BENCHMARK = "a benchmark, no duty at home"
    CODE = "local codes decide"
    CHOICE = "yours to choose"
    GEOMETRY = "nothing to choose"


@dataclass(frozen=True)
class Benchmark:
    """One number that a layout is held against.

    Args:
        topic: what it is about.
        says: what it measures, in a few words.
        inches: for projects in inches and feet, as the document prints it.
        metric: for metric ones, likewise.
        source: the document, and how the number is known.
        weight: what it asks of someone who builds at home.
    """

    topic: Topic
    says: str
    inches: Length
    metric: Length
    source: Source
    weight: Weight

    def size(self, unit: Unit) -> Length:
        """The length that counts in a project with this unit."""
        return self.inches if unit.imperial else self.metric

    @property
    def told(self) -> str:
        """Source and weight, for a finding."""
        known = "" if self.source.status is Status.VERIFIED else f" ({self.source.status})"
        return f"{self.source.document}{known}: {self.weight}" if self.source.document else self._undocumented

    @property
    def _undocumented(self) -> str:
        return f"{self.source.status}: {self.weight}"


_ROUTE = Source("2010 ADA Standards, 403.5.1, clear width of an accessible route", Status.VERIFIED)
_CLEAR_FLOOR = Source("2010 ADA Standards, 305.3, clear floor space of 30 x 48 in", Status.SECOND_HAND)
_GUARD = Source("2018 IRC, R312.1", Status.VERIFIED)

ROUTE = Benchmark(
    Topic.ROUTES, "clear width of a route", Length.inches(36), Length.millimetres(915), _ROUTE, Weight.BENCHMARK
)
PINCH = Benchmark(
    Topic.ROUTES, "clear width of a pinch in it", Length.inches(32), Length.millimetres(815), _ROUTE, Weight.BENCHMARK
)
PINCH_LENGTH = Benchmark(
    Topic.ROUTES, "longest pinch", Length.inches(24), Length.millimetres(610), _ROUTE, Weight.BENCHMARK
)
PINCH_APART = Benchmark(
    Topic.ROUTES, "between two pinches", Length.inches(48), Length.millimetres(1220), _ROUTE, Weight.BENCHMARK
)
PASSING_EVERY = Benchmark(
    Topic.ROUTES,
    "longest way without a place to pass",
    Length.inches(200 * 12),
    Length.millimetres(61000),
    Source("2010 ADA Standards, 403.5.3, passing spaces of 60 x 60 in", Status.VERIFIED),
    Weight.BENCHMARK,
)
TURNING = Benchmark(
    Topic.TURNS,
    "circle to turn a wheelchair in",
    Length.inches(60),
    Length.millimetres(1525),
    Source("2010 ADA Standards, 304.3", Status.MEMORY),
    Weight.BENCHMARK,
)
LANDING = Benchmark(
    Topic.DOORS,
    "ground before a house door",
    Length.inches(36),
    Length.millimetres(914),
    Source("2015 IRC, R311.3, landing as wide as the door", Status.VERIFIED),
    Weight.CODE,
)
GUARD_DROP = Benchmark(
    Topic.GUARDS, "drop that asks for a guard", Length.inches(30), Length.millimetres(762), _GUARD, Weight.CODE
)
GUARD_HEIGHT = Benchmark(
    Topic.GUARDS, "guard above the floor", Length.inches(36), Length.millimetres(914), _GUARD, Weight.CODE
)
CLIMB = Benchmark(
    Topic.GUARDS,
    "guard above a seat, or from it to the seat",
    Length.inches(36),
    Length.millimetres(914),
    Source("a child climbs from a seat, and 2018 IRC, R312.1 measures a guard from the floor alone", Status.JUDGEMENT),
    Weight.CODE,
)
STEP = Benchmark(
    Topic.STEPS,
    "from the seats to a step before them",
    Length.inches(36),
    Length.millimetres(915),
    Source("", Status.PRACTICE),
    Weight.CHOICE,
)
FLAME = Benchmark(
    Topic.FLAMES,
    "from an open flame to what can burn",
    Length.inches(15 * 12),
    Length.inches(15 * 12),
    Source(
        "IFC 307.4.3 as adopted in Baltimore, portable outdoor fireplace, one- and two-family dwellings exempt there",
        Status.VERIFIED,
    ),
    Weight.CODE,
)
REACH = Benchmark(
    Topic.REACH,
    "clear floor before a thing to reach",
    Length.inches(30),
    Length.millimetres(760),
    _CLEAR_FLOOR,
    Weight.BENCHMARK,
)
REACH_WIDTH = Benchmark(
    Topic.REACH, "width of that floor", Length.inches(48), Length.millimetres(1220), _CLEAR_FLOOR, Weight.BENCHMARK
)

BENCHMARKS = (
    ROUTE,
    PINCH,
    PINCH_LENGTH,
    PINCH_APART,
    PASSING_EVERY,
    TURNING,
    LANDING,
    GUARD_DROP,
    GUARD_HEIGHT,
    CLIMB,
    STEP,
    FLAME,
    REACH,
    REACH_WIDTH,
)
"""All of them, in the order of their topics."""
