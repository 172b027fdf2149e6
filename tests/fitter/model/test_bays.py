"""Bay splits: common practice, and every split tried."""

from __future__ import annotations

from itertools import combinations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitter.model.bays import RailLine, choose, fewest, rails, splits

PITCH, POST = 24 * 16, 56  # a 24 in module and a 3 1/2 in post, in sixteenths


def run(modules: int) -> RailLine:
    """A front rail line of that many modules between the inner faces of its ends."""
    return RailLine(modules * PITCH, tuple(k * PITCH for k in range(1, modules)))


def test_common_practice_two_bays_of_two_modules() -> None:
    """Common practice, no source: 46 1/4 + 3 1/2 + 46 1/4 = 96 in."""
    assert splits(run(4), POST, 47 * 16) == ((2 * PITCH,),)
    lengths = rails(4 * PITCH, (2 * PITCH,), POST)
    assert lengths == (740, 740)  # 46 1/4 in
    assert sum(lengths) + POST == 96 * 16


def test_common_practice_a_bay_of_three_modules() -> None:
    """Common practice, no source: a three-module bay that ends at a post takes 70 1/4 in."""
    assert rails(5 * PITCH, (3 * PITCH,), POST)[0] == 1124  # 70 1/4 in


def test_equal_lengths_are_preferred_to_mixed_ones() -> None:
    lines = (run(4), run(4))
    assert choose(lines, POST, 71 * 16, ((0, 1, 0),)) == ((2 * PITCH,), (2 * PITCH,))


def test_no_split_where_one_module_is_beyond_the_span() -> None:
    assert splits(run(2), POST, 20 * 16) == ()


def test_a_line_that_must_carry_a_post_does() -> None:
    line = RailLine(4 * PITCH, tuple(k * PITCH for k in range(1, 4)), must=(PITCH,))
    assert all(PITCH in split for split in splits(line, POST, 80 * 16))


@pytest.mark.parametrize("odd", [0, 1])
@settings(derandomize=True, deadline=None, max_examples=150, database=None)
@given(modules=st.integers(1, 9), pitch=st.integers(60, 400), span=st.integers(50, 1200), post=st.integers(10, 50))
def test_splits_are_all_of_the_fewest(odd: int, modules: int, pitch: int, span: int, post: int) -> None:
    """Against trying every set of lines."""
    post += odd
    line = RailLine(modules * pitch, tuple(k * pitch for k in range(1, modules)))
    for count in range(modules):
        good = [
            lines
            for lines in combinations(line.lines, count)
            if all(0 < rail <= span for rail in rails(line.length, lines, post))
        ]
        if good:
            assert splits(line, post, span) == tuple(good)
            assert fewest(line.length, post, span) <= count
            return
    assert splits(line, post, span) == ()


@settings(derandomize=True, deadline=None, max_examples=60, database=None)
@given(
    counts=st.lists(st.integers(1, 5), min_size=2, max_size=3),
    pitches=st.lists(st.integers(100, 300), min_size=3, max_size=3),
    span=st.integers(300, 700),
    shift=st.integers(0, 90),
)
def test_choice_over_several_runs_is_the_best_of_all(
    counts: list[int], pitches: list[int], span: int, shift: int
) -> None:
    """Against every combination of every split of every line: fewest lengths, most alignment, first in order."""
    post, lines, pairs = 20, [], []
    for n, (number, pitch) in enumerate(zip(counts, pitches, strict=False)):
        inner = tuple(k * pitch for k in range(1, number))
        back = (shift, *(line + shift for line in inner)) if shift else inner
        lines += [RailLine(number * pitch, inner), RailLine(number * pitch + shift, back)]
        pairs.append((2 * n, 2 * n + 1, shift))
    ways = [splits(line, post, span) for line in lines]

    def rank(chosen: tuple[tuple[int, ...], ...]) -> tuple[int, int, tuple[tuple[int, ...], ...]]:
        lengths = {cut for line, split in zip(lines, chosen, strict=True) for cut in rails(line.length, split, post)}
        apart = sum(len({*chosen[f]} ^ {line - by for line in chosen[b]}) for f, b, by in pairs)
        return len(lengths), apart, chosen

    best = min(product(*ways), key=rank) if all(ways) else None
    assert choose(tuple(lines), post, span, tuple(pairs)) == best


@settings(derandomize=True, deadline=None, max_examples=60, database=None)
@given(modules=st.integers(1, 9), pitch=st.integers(60, 400), post=st.integers(10, 50))
def test_rails_and_posts_fill_the_line(modules: int, pitch: int, post: int) -> None:
    line = RailLine(modules * pitch, tuple(k * pitch for k in range(1, modules)))
    for split in splits(line, post, 3 * pitch):
        assert sum(rails(line.length, split, post)) + post * len(split) == line.length
