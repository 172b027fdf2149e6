"""Where runs are split: by hand, and every set of splits and posts tried."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitter.model.carrying import Cut, Spine, Track, choose, ways

PITCH, POST, END = 388, 56, 24  # 24 1/4 in modules, posts of 3 1/2 in, ends of 1 1/2 in, in sixteenths
SPAN = 72 * 16


def straight(count: int, *, before: int = END, after: int = END) -> Spine:
    """A straight run of that many modules between two ends."""
    inner = tuple(range(1, count))
    track = Track(count * PITCH, 0, inner)
    return Spine(PITCH, count, before, after, inner, (), track, track)


def test_eight_modules_in_pieces_of_three() -> None:
    """74 1/4 in hold three modules and an end: pieces of 3, 3, 2 or of 3, 2, 3 or of 2, 3, 3.

    Rails of three modules between posts are 72 3/4 - 3 1/2 = 69 1/4 in at an end, 65 3/4 in between two splits, so that
    spans of 72 in need no other post: eight posts in all. Of the three ways the first and the last need a rail of three
    modules at an end, of three in the middle and of two at an end; the one in the middle needs only two lengths.
    """
    found = choose((straight(8),), POST, SPAN, 3 * PITCH + END)
    assert found is not None
    assert found.cuts == (Cut((3, 5)),)
    assert (found.posts, found.lengths) == (8, 2)


def test_one_mark_less_takes_one_piece_more() -> None:
    """Then three modules with an end are too long, and two at either end leave four between them."""
    known = ways(straight(8), POST, SPAN, 3 * PITCH + END - 1)
    assert known is not None
    assert known.splits == 3


def test_a_run_that_can_be_carried_whole_is_not_split() -> None:
    found = choose((straight(4),), POST, SPAN, 4 * PITCH + 2 * END)
    assert found is not None
    assert found.cuts == (Cut((), (2,), (2,)),)


def test_a_module_and_its_end_that_are_too_long() -> None:
    assert ways(straight(4), POST, SPAN, PITCH + END - 1) is None


def test_a_run_is_split_off_from_a_corner_of_another() -> None:
    """In front only one post is added at line 0, since the corner's is the other; behind there are two.

    The back begins 21 in before that line: its first rail is 21 - 3 1/2 = 17 1/2 in.
    """
    front, back = Track(2 * PITCH, 0, (1,)), Track(336 + 2 * PITCH, 336, (0, 1))
    spine = Spine(PITCH, 2, 0, END, (0, 1), (0,), front, back)
    found = ways(spine, POST, SPAN, 2 * PITCH + END)
    assert found is not None
    assert (found.splits, found.posts) == (1, 3)
    assert found.by_lengths == {frozenset({280, 2 * PITCH - POST}): (0, Cut((0,)))}


def test_posts_of_splits_carry_rails_too() -> None:
    """Pieces of two modules with spans of 40 in: a post in the middle of each, in front and behind."""
    found = choose((straight(4),), POST, 40 * 16, 2 * PITCH + END)
    assert found is not None
    assert found.cuts == (Cut((2,), (1, 3), (1, 3)),)
    assert found.posts == 4 + 4


def test_a_line_that_cannot_be_split() -> None:
    """A drain under the post at line 2: four modules come apart at line 1 and 3 instead."""
    spine = straight(4).without(frozenset({2}), frozenset(), frozenset())
    found = ways(spine, POST, SPAN, 2 * PITCH + END)
    assert found is not None
    assert {cut.lines for _, cut in found.by_lengths.values()} == {(1, 3)}


def _rails(length: int, posts: list[tuple[int, int]]) -> list[int]:
    """What posts leave of a line; nothing where two of them, or one and the end of the line, touch."""
    faces = [0, *(face for post in sorted(posts) for face in post), length]
    return [b - a for a, b in zip(faces[::2], faces[1::2], strict=True)]


def _tried(spine: Spine, post: int, span: int, longest: int) -> dict[tuple[int, int], set[frozenset[int]]]:
    """Splits, posts and the sets of rail lengths of every way to split a run and to stand its posts."""
    found: dict[tuple[int, int], set[frozenset[int]]] = {}
    for size in range(len(spine.may) + 1):
        for splits in combinations(spine.may, size):
            places = [-spine.before, *(k * spine.pitch for k in splits), spine.count * spine.pitch + spine.after]
            if set(spine.must) - set(splits) or any(b - a > longest for a, b in pairwise(places)):
                continue
            lines = [list(_posts(spine, track, splits, post, span)) for track in (spine.front, spine.back)]
            for (some, one), (others, other) in product(*lines):
                found.setdefault((size, some + others), set()).add(one | other)
    return found


def _posts(
    spine: Spine, track: Track, splits: tuple[int, ...], post: int, span: int
) -> Iterator[tuple[int, frozenset[int]]]:
    """How many posts, and what lengths, of every choice of posts on a line."""

    def at(k: int) -> int:
        return track.zero + k * spine.pitch

    pairs = [(low, low + post) for k in splits for low in (at(k) - post, at(k))]
    pairs = [pair for pair in pairs if pair[0] >= 0 and pair[1] <= track.length]
    seams = {at(k) for k in splits}
    for size in range(len(track.carrying) + 1):
        for alone in combinations(track.carrying, size):
            if set(alone) & set(splits) or set(track.must) - {*alone, *splits}:
                continue
            posts = [*pairs, *((at(k) - post // 2, at(k) + post - post // 2) for k in alone)]
            starts = [0, *(high for _, high in sorted(posts))]
            rails = _rails(track.length, posts)
            if all(
                0 < rail <= span or (not rail and start in seams) for start, rail in zip(starts, rails, strict=True)
            ):
                yield len(posts), frozenset(rail for rail in rails if rail)


@st.composite
def spines(draw: st.DrawFn) -> Spine:
    """Runs that may begin or end at a corner, own or other's, with lines that something lies under."""
    count, pitch = draw(st.integers(1, 5)), draw(st.integers(30, 90))
    corners = draw(st.tuples(st.sampled_from((None, True, False)), st.sampled_from((None, True, False))))
    gaps = [0 if own is None else draw(st.integers(40, 80)) for own in corners]
    before, after = (
        draw(st.integers(0, 20)) if own is None else gap + draw(st.integers(0, 20)) if own else 0
        for own, gap in zip(corners, gaps, strict=True)
    )
    may = range(0 if corners[0] is not None else 1, count + 1 if corners[1] is not None else count)
    must = [line for line, own in ((0, corners[0]), (count, corners[1])) if own is False]
    ends = [line for line, own in ((0, corners[0]), (count, corners[1])) if own]
    held = tuple(line for line in ends if draw(st.booleans()))
    front = Track(count * pitch, 0, tuple(range(1, count)))
    back = Track(gaps[0] + count * pitch + gaps[1], gaps[0], tuple(may), held)
    spine = Spine(pitch, count, before, after, tuple(may), tuple(must), front, back)
    blocked = [frozenset(draw(st.sets(st.integers(0, 5), max_size=2))) for _ in range(3)]
    return spine.without(*blocked) if draw(st.booleans()) else spine


@pytest.mark.parametrize("odd", [0, 1])
@settings(derandomize=True, deadline=None, max_examples=150, database=None)
@given(spine=spines(), post=st.integers(4, 16), span=st.integers(20, 260), longest=st.integers(40, 400))
def test_ways_are_those_with_the_fewest_splits_and_then_posts(
    odd: int, spine: Spine, post: int, span: int, longest: int
) -> None:
    """Against every set of splits and posts."""
    post = 2 * (post // 2) + odd
    tried, found = _tried(spine, post, span, longest), ways(spine, post, span, longest)
    if not tried:
        assert found is None
        return
    assert found is not None
    assert (found.splits, found.posts) == min(tried)
    assert set(found.by_lengths) == tried[min(tried)]
    any_number = ways(spine, post, span, longest, seldom=False)
    assert any_number is not None
    assert any_number.posts == min(posts for _, posts in tried)


@settings(derandomize=True, deadline=None, max_examples=60, database=None)
@given(runs=st.lists(spines(), min_size=2, max_size=3), span=st.integers(60, 260), longest=st.integers(100, 400))
def test_choice_over_several_runs_has_the_fewest_lengths(runs: list[Spine], span: int, longest: int) -> None:
    """Against every choice of one set of lengths a run."""
    found = choose(tuple(runs), 12, span, longest)
    tried = [_tried(run, 12, span, longest) for run in runs]
    if not all(tried):
        assert found is None
        return
    assert found is not None
    assert found.posts == sum(min(each)[1] for each in tried)
    sets = [each[min(each)] for each in tried]
    assert found.lengths == min(len(frozenset().union(*some)) for some in product(*sets))
