"""Outlines of many corners: found where the readings allow it, refused where they do not, in bounded work."""

from __future__ import annotations

import math
import random

import pytest

from rooms.lengths import Length
from rooms.survey import Readings, SurveyError, Turn, adjust

TOLERANCE = Length.inches("1/4")


def rough_ring(count: int, seed: int) -> list[tuple[float, float]]:
    """A rough round outline with sides of some three feet."""
    chance = random.Random(seed)
    size = 40 * count / (2 * math.pi)
    angles = [2 * math.pi * (k + chance.uniform(-0.3, 0.3)) / count for k in range(count)]
    reaches = [size * chance.uniform(0.8, 1.2) for _ in range(count)]
    return [(reach * math.cos(angle), reach * math.sin(angle)) for reach, angle in zip(reaches, angles, strict=True)]


def taken(spots: list[tuple[float, float]], ties: list[tuple[int, int]], *, turns: bool, noise: float) -> Readings:
    """Readings off an outline, every one off by up to `noise` inches or as many halves of a degree."""
    chance = random.Random(2)
    names = tuple(f"P{k}" for k in range(len(spots)))

    def taped(i: int, j: int) -> tuple[str, str, Length]:
        return names[i], names[j], Length.inches(str(math.dist(spots[i], spots[j]) + chance.uniform(-noise, noise)))

    angles = []
    for k, (x, y) in enumerate(spots):
        (ax, ay), (bx, by) = spots[k - 1], spots[(k + 1) % len(spots)]
        angle = math.degrees(math.atan2(ay - y, ax - x) - math.atan2(by - y, bx - x)) % 360
        angles.append((names[k], angle + chance.uniform(-noise, noise) / 2))
    return Readings(
        names,
        tuple(taped(k, (k + 1) % len(spots)) for k in range(len(spots))),
        tuple(angles) if turns else (),
        tuple(taped(i, j) for i, j in ties),
        TOLERANCE,
    )


def strips(count: int) -> list[tuple[int, int]]:
    """Ties that brace an outline: from the first corner to every other, and to each next neighbour but one."""
    return sorted({*((0, k) for k in range(2, count - 1)), *((k, k + 2) for k in range(count - 2))})


@pytest.mark.parametrize("count", [13, 20, 30])
def test_ties_alone_make_outlines_of_many_corners(count: int) -> None:
    """The outline that was taped, to the tolerance of its readings."""
    spots = rough_ring(count, 1)
    survey = adjust(taken(spots, strips(count), turns=False, noise=0.05))
    x, y = survey.point(f"P{count // 2}")
    assert math.hypot(x.inch, y.inch) == pytest.approx(math.dist(spots[0], spots[count // 2]), abs=0.25)


def test_eighty_corners_by_turns_and_a_few_ties() -> None:
    """Each tie comes out as taped, and every corner has its ellipse."""
    spots, ties = rough_ring(80, 3), [(0, 40), (1, 26), (5, 43), (20, 60), (2, 76)]
    survey = adjust(taken(spots, ties, turns=True, noise=0.1))
    assert survey.redundancy == 8
    assert len(survey.ellipses) == 80
    for first, second in ties:
        one, other = survey.point(f"P{first}"), survey.point(f"P{second}")
        found = math.dist((one.x.inch, one.y.inch), (other.x.inch, other.y.inch))
        assert found == pytest.approx(math.dist(spots[first], spots[second]), abs=0.3)


def nonsense(count: int, seed: int) -> tuple[tuple[str, ...], tuple[tuple[str, str, Length], ...]]:
    """Names and sides of random lengths."""
    chance = random.Random(seed)
    names = tuple(f"P{k}" for k in range(count))
    sides = tuple((names[k], names[(k + 1) % count], Length.inches(str(chance.uniform(20, 200)))) for k in range(count))
    return names, sides


def test_a_hundred_sides_without_a_tie_are_told_what_would_fix_them() -> None:
    """As many lines as there are corners beyond a triangle."""
    names, sides = nonsense(100, 9)
    with pytest.raises(SurveyError) as caught:
        adjust(Readings(names, sides, (), (), TOLERANCE))
    (problem,) = caught.value.problems
    assert problem.code == "not-fixed"
    assert len(set(problem.settle)) == len(problem.settle) == 97


def test_a_hundred_nonsense_sides_with_turns_disagree() -> None:
    """A walk of quarter turns with random sides comes nowhere near its beginning."""
    names, sides = nonsense(100, 9)
    turns = tuple((name, Turn.LEFT if k < 52 else Turn.RIGHT) for k, name in enumerate(names))
    with pytest.raises(SurveyError) as caught:
        adjust(Readings(names, sides, turns, (), TOLERANCE))
    assert [problem.code for problem in caught.value.problems] == ["readings-disagree"]
