"""Benchmarks of clearances against the numbers that their documents print; each row names document and section."""

from __future__ import annotations

import pytest

from fitter.domain import benchmarks
from fitter.domain.benchmarks import BENCHMARKS, Benchmark, Weight
from fitter.domain.evidence import Status
from fitter.project.defaults import FLAME_CLEAR, ROUTE_NARROWEST, defaults
from rooms.lengths import Length, Unit

PRINTED = {
    # 2010 ADA Standards, 403.5.1: 36 in (915 mm); 32 in (815 mm) for 24 in (610 mm), 48 in (1220 mm) apart.
    "ROUTE": (36, 915, "403.5.1", Status.VERIFIED),
    "PINCH": (32, 815, "403.5.1", Status.VERIFIED),
    "PINCH_LENGTH": (24, 610, "403.5.1", Status.VERIFIED),
    "PINCH_APART": (48, 1220, "403.5.1", Status.VERIFIED),
    # 2010 ADA Standards, 403.5.3: passing spaces at intervals of 200 feet (61 m).
    "PASSING_EVERY": (2400, 61000, "403.5.3", Status.VERIFIED),
    # 2010 ADA Standards, 304.3.1: a circle of 60 in (1525 mm); from memory.
    "TURNING": (60, 1525, "304.3", Status.MEMORY),
    # 2015 IRC, R311.3: 36 in (914 mm) in the direction of travel.
    "LANDING": (36, 914, "R311.3", Status.VERIFIED),
    # 2018 IRC, R312.1.1 and R312.1.2: more than 30 in (762 mm); not less than 36 in (914 mm).
    "GUARD_DROP": (30, 762, "R312.1", Status.VERIFIED),
    "GUARD_HEIGHT": (36, 914, "R312.1", Status.VERIFIED),
    # No document: the height of a guard, counted from the seat.
    "CLIMB": (36, 914, "R312.1", Status.JUDGEMENT),
    # No document: common practice.
    "STEP": (36, 915, "", Status.PRACTICE),
    # IFC 307.4.3 as adopted in Baltimore: 15 ft (printed as 3048 mm there, a known misprint).
    "FLAME": (180, 4572, "307.4.3", Status.VERIFIED),
    # 2010 ADA Standards, 305.3: 30 by 48 in (760 by 1220 mm), seen in a copy.
    "REACH": (30, 760, "305.3", Status.SECOND_HAND),
    "REACH_WIDTH": (48, 1220, "305.3", Status.SECOND_HAND),
}


@pytest.mark.parametrize("name", PRINTED)
def test_numbers_and_sources(name: str) -> None:
    inches, millimetres, section, status = PRINTED[name]
    benchmark: Benchmark = getattr(benchmarks, name)
    assert benchmark.size(Unit.FT) == benchmark.size(Unit.IN) == Length.inches(inches)
    assert benchmark.size(Unit.MM) == benchmark.size(Unit.M) == Length.millimetres(millimetres)
    assert section in benchmark.source.document
    assert benchmark.source.status is status


def test_every_benchmark_is_checked_here() -> None:
    assert [getattr(benchmarks, name) for name in PRINTED] == list(BENCHMARKS)


def test_both_systems_print_the_same_size() -> None:
    """The ADA Standards round to 5 mm and say 915 for 36 in, codes for houses 914: one in 300 at most."""
    for benchmark in BENCHMARKS:
        assert abs(benchmark.metric - benchmark.inches) * 300 <= benchmark.inches


def test_what_is_written_for_public_places_is_no_duty_at_home() -> None:
    for benchmark in BENCHMARKS:
        ada = "ADA" in benchmark.source.document
        assert (benchmark.weight is Weight.BENCHMARK) == ada
        assert str(benchmark.weight) in benchmark.told
        assert benchmark.source.document in benchmark.told


def test_defaults_agree_with_the_benchmarks() -> None:
    for unit in (Unit.IN, Unit.MM):
        assert defaults(unit).route_width == benchmarks.ROUTE.size(unit)
    assert benchmarks.FLAME.inches == FLAME_CLEAR
    assert benchmarks.PINCH.inches == ROUTE_NARROWEST
