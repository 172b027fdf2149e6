"""Every frame that is built is proven complete, and the proof fails once any part of it is taken away or shifted."""

from __future__ import annotations

from collections import defaultdict
from random import Random

import pytest
from framed_yards import built, fitting, framed, unjoined
from mutations import STEPS, first, shifted, without
from yards import inch, yards

from fitter.checking import check_woodwork
from fitter.checking.wood import SOLIDS, failing
from fitter.checking.wood.bearing import MOST
from fitter.checking.wood.built import UP, Built
from fitter.domain.woodwork import PartRole

BY_HAND = yards()
SEEDS = range(60)
MUTATED = range(2, 42, 4)
BEYOND = {role for role in PartRole if role.startswith("shelf") or role in ("arm bearer", "arm tie", "arm board")}
"""No random frame has shelves or wide arms beyond its ends; they have tests of their own."""


@pytest.mark.parametrize("name", BY_HAND)
def test_frames_of_layouts_by_hand_hold(name: str) -> None:
    assert failing(unjoined(fitting(BY_HAND[name])), SOLIDS) == ()


@pytest.mark.parametrize("decade", range(6))
def test_random_frames_hold(decade: int) -> None:
    """Ten at a time: chains of every kind, built in every way."""
    for seed in range(10 * decade, 10 * decade + 10):
        assert (seed, failing(unjoined(framed(seed)), SOLIDS)) == (seed, ())


@pytest.mark.parametrize("seed", [seed for seed in range(30) if framed(seed).project.frame.post.width >= inch(3)])
def test_random_frames_are_fastened(seed: int) -> None:
    """With posts that take screws from two sides; in thinner ones some have no room."""
    frame = built(framed(seed))
    assert check_woodwork(frame.project, frame.layout, frame.woodwork) == ()


@pytest.mark.parametrize("seed", [1, 9, 44, 45])
def test_no_cleat_is_too_short_to_be_screwed(seed: int) -> None:
    """Where a thick post is cut off by the end of the deck and slats hardly touch it, none is needed.

    All other cleats are as long as a post is wide; that every slat is borne is proven of the same frames above.
    """
    frame = unjoined(framed(seed))
    assert frame.project.frame.post.width > inch(3)
    lengths = [part.length for part in frame.parts if part.role in (PartRole.SHORT_CLEAT, PartRole.CLEAT)]
    assert min(lengths) >= inch(3)


@pytest.mark.sweep
@pytest.mark.parametrize("hundred", range(1, 10))
def test_many_random_frames_hold(hundred: int) -> None:
    for seed in range(100 * hundred, 100 * hundred + 100):
        assert (seed, failing(unjoined(framed(seed)), SOLIDS)) == (seed, ())


def needed(frame: Built, number: int) -> bool:
    """Whether a part bears load: a short cleat under a sliver of a slat alone does not, the slat lies on its rail's."""
    if frame.parts[number].role is not PartRole.SHORT_CLEAT:
        return True
    rows = frame.contacts.on(number, frame.solids.face_axis(number, UP))
    slat = frame.mark(frame.made.seat_slat.width)
    return bool((frame.contacts.area[rows] > (1 - MOST) * slat * frame.mark(frame.made.cleat.thickness)).any())


def sample(frame: Built, seed: int) -> list[int]:
    """One part of each role."""
    by_role = defaultdict(list)
    for number, part in enumerate(frame.parts):
        if needed(frame, number):
            by_role[part.role].append(number)
    random = Random(seed)
    return [random.choice(numbers) for numbers in by_role.values()]


def unnoticed(frame: Built, numbers: list[int]) -> list[str]:
    """Parts that may be missing, or lie an inch away, without the proof's failing."""
    found = [f"without {frame.name(number)}" for number in numbers if first(without(frame, number)) is None]
    for number in numbers:
        for axis, step in STEPS:
            if first(shifted(frame, number, axis, step)) is None:
                found.append(f"{frame.name(number)} by {step} along {'xyz'[axis]}")
    return found


@pytest.mark.parametrize("seed", MUTATED)
def test_no_part_may_be_missing_or_elsewhere(seed: int) -> None:
    frame = unjoined(framed(seed))
    assert unnoticed(frame, sample(frame, seed)) == []


def test_every_role_is_tried() -> None:
    """The frames that parts are taken from have parts of every role between them."""
    assert {part.role for seed in MUTATED for part in unjoined(framed(seed)).parts} == set(PartRole) - BEYOND


@pytest.mark.parametrize("name", ["straight", "right L, table corner", "right L, angle post"])
def test_each_single_part_is_missed(name: str) -> None:
    """Not a sample: every part of some whole frames."""
    frame = unjoined(fitting(BY_HAND[name]))
    assert [frame.name(n) for n in range(len(frame.parts)) if first(without(frame, n)) is None] == []


@pytest.mark.sweep
@pytest.mark.parametrize(
    "name",
    [
        "U, inside post",
        "free U, angle post",
        "U, low post",
        "U, spread",
        "split right L, outside post",
        "free U, table corner",
    ],
)
def test_each_single_part_is_missed_where_it_lies(name: str) -> None:
    frame = unjoined(fitting(BY_HAND[name]))
    assert unnoticed(frame, [number for number in range(len(frame.parts)) if needed(frame, number)]) == []
