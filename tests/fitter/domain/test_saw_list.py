"""The order of sawing: it adds up, frees every part once, spares all wood, and keeps hands away from the blade."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from cut_cases import Lists, tiny, workshop
from shapely.geometry import Polygon

from fitter.checking import check_plan
from fitter.cutting import NoPlanError, plan_boards
from fitter.domain.cuts import BoardPlan, Cut, CutOptions, PlannedBoard, kerf_along
from fitter.domain.saw_list import Frees, Sawing, Stroke, sawing, short_first, small, stops, turned
from fitter.domain.woodwork import EndCut
from rooms.lengths import ZERO, Length, Unit

KERF, TRIM = Length.inches("1/8"), Length.inches("1/2")
OPTIONS = CutOptions(kerf=KERF, trim=TRIM)
SMALL = small(Unit.IN)


def planned(lists: Lists, options: CutOptions = OPTIONS) -> BoardPlan:
    return short_first(plan_boards(*lists, options, 20.0), options, SMALL)


def board(*lengths: int, long: int = 96, trim: int = 0) -> PlannedBoard:
    """A board of 2x4 with square parts of some inches, an eighth apart."""
    cuts, start = [], Length.inches(trim)
    for length in lengths:
        cuts.append(Cut(f"P{length}", start, start + Length.inches(length)))
        start = cuts[-1].end + KERF
    return PlannedBoard("2x4", Length.inches(long), 400, tuple(cuts), max(ZERO, Length.inches(long) - start))


def freed(sawn: Sawing) -> Counter[str]:
    """Marks of all that is finished, by saw cuts or by being left."""
    found = [stroke.mark for stroke in sawn.strokes if stroke.frees is Frees.PART]
    return Counter(found + [stretch.rest for stretch in sawn.stretches if stretch.rest])


@pytest.mark.parametrize("seed", range(4))
def test_square_cuts_add_up_to_the_board_exactly(seed: int) -> None:
    """What falls off, with a saw cut after each part, and what is left are the whole board to the unit."""
    for each in planned(workshop(seed, 60)).boards:
        sawn = sawing(each, OPTIONS)
        at = ZERO
        for stroke in sawn.strokes:
            assert stroke.start == at
            at += stroke.step + (KERF if stroke.frees is Frees.PART else ZERO)
            assert stroke.line == at - (KERF if stroke.frees is Frees.PART else ZERO)
        rest = sawn.stretches[-1].rest
        left = each.cuts[-1].length if rest else each.offcut
        # The last saw cut may run half off the board.
        assert at + left == each.length or (not left and ZERO <= at - each.length <= KERF)


@pytest.mark.parametrize("seed", range(12))
def test_every_part_is_freed_once_and_no_blade_touches_wood(seed: int) -> None:
    """Blades as areas, their slant and their width along the board included; shapely has the last word."""
    options = replace(OPTIONS, trim=ZERO if seed % 2 else TRIM)
    try:
        plan = planned(tiny(seed, mitred=True), options)
    except NoPlanError:
        pytest.skip("the boards do not yield the parts")
    for each in plan.boards:
        sawn = sawing(each, options)
        assert freed(sawn) == Counter(cut.mark for cut in each.cuts)
        assert [stroke.number for stroke in sawn.strokes] == list(range(1, len(sawn.strokes) + 1))
        parts = [area(cut) for cut in each.cuts]
        blades = [blade(stroke) for stroke in sawn.strokes]
        for one in blades:
            assert all(one.intersection(part).area < 1e-6 * part.area for part in parts)
        for cut, part in zip(each.cuts, parts, strict=True):
            ends = sum(one.distance(part) < 1e-6 for one in blades)
            whole = (cut.start == ZERO and not cut.leans[0]) + (cut.end == each.length and not cut.leans[1])
            assert ends + whole >= 2, "both faces of a part are sawn, unless they are the board's own"


def area(cut: Cut) -> Polygon:
    """A part on its board, the near edge at 0; a mitre recedes by as much as the board is wide."""
    deep = max((end.recess.units for end in cut.ends), default=0) or Length.inches("7/2").units
    first, last = cut.leans
    a, b = cut.start.units, cut.end.units
    near = (a + (deep if first < 0 else 0), b - (deep if last > 0 else 0))
    far = (a + (deep if first > 0 else 0), b - (deep if last < 0 else 0))
    return Polygon([(near[0], 0), (near[1], 0), (far[1], deep), (far[0], deep)])


def blade(stroke: Stroke) -> Polygon:
    """What a saw cut takes: beyond its line, of trim and waste before it."""
    deep = Length.inches("7/2").units
    finishes = stroke.frees in (Frees.PART, Frees.STRETCH)
    near = far = stroke.line.units
    if stroke.lean and finishes:
        near, far = (near - deep, far) if stroke.lean > 0 else (near, far - deep)
    elif stroke.lean:
        near, far = (near, far + deep) if stroke.lean > 0 else (near + deep, far)
    wide = (kerf_along(KERF) if stroke.lean else KERF.units) * (1 if finishes else -1)
    return Polygon([(near, 0), (near + wide, 0), (far + wide, deep), (far, deep)])


@pytest.mark.parametrize("seed", range(20))
def test_a_turned_board_passes_the_check_of_plans(seed: int) -> None:
    """End for end, every part is still there, a saw cut from its neighbours, and the rest is what it was."""
    pieces, stocks = tiny(seed, mitred=True)
    try:
        plan = plan_boards(pieces, stocks, OPTIONS, 20.0)
    except NoPlanError:
        pytest.skip("the boards do not yield the parts")
    other = short_first(plan, OPTIONS, Length.inches(1000))
    assert check_plan(pieces, stocks, OPTIONS, other) == ()
    for before, after in zip(plan.boards, other.boards, strict=True):
        assert [cut.mark for cut in after.cuts] == [cut.mark for cut in before.cuts][::-1]
        assert turned(after, OPTIONS) == before
    kept = sum(each.offcut.units for each in other.boards if each.offcut >= OPTIONS.least_offcut)
    wood = sum(piece.count * (2 * piece.length.units - sum(e.recess.units for e in piece.ends)) for piece in pieces)
    whole = sum(each.length.units for each in other.boards)
    assert abs(2 * (whole - kept - other.waste.units) - wood) <= 2 * len(pieces)


def test_short_parts_are_sawn_while_the_board_is_long() -> None:
    plan = BoardPlan((board(40, 30, 5, 5),), 400, 400, (), ZERO)
    sawn = sawing(short_first(plan, OPTIONS, SMALL).boards[0], OPTIONS)
    assert [stroke.mark for stroke in sawn.strokes] == ["P5", "P5", "P30", "P40"]
    assert all(stroke.held >= SMALL for stroke in sawn.strokes)
    plain = BoardPlan((board(40, 30),), 400, 400, (), ZERO)
    assert short_first(plain, OPTIONS, SMALL) == plain


def test_what_is_held_is_the_longer_of_both_pieces() -> None:
    strokes = sawing(board(5, 4, long=14), OPTIONS).strokes
    assert [stroke.held for stroke in strokes] == [Length.inches(9), Length.inches("39/8")]


def test_a_part_that_ends_with_the_board_is_left_over() -> None:
    sawn = sawing(board(48, 47, long=96), OPTIONS)
    assert [stroke.mark for stroke in sawn.strokes] == ["P48", "P47"]
    whole = replace(board(96), length=Length.inches(96))
    assert sawing(whole, OPTIONS).strokes == ()
    assert sawing(whole, OPTIONS).stretches[0].rest == "P96"


@pytest.mark.parametrize("handled", [50, 60, 100, 130, 300])
def test_long_boards_are_first_cut_between_parts(handled: int) -> None:
    each = board(45, 30, 30, 20, 20, long=192, trim=1)
    limit = Length.inches(handled)
    sawn = sawing(each, OPTIONS, limit)
    assert freed(sawn) == Counter(cut.mark for cut in each.cuts)
    assert len(sawn.stretches) == len(sawn.first) + 1
    parts = [stretch for stretch in sawn.stretches if stretch.rest]
    assert all(stretch.length <= limit for stretch in parts)
    ends = {cut.end for cut in each.cuts}
    assert all(stroke.line in ends for stroke in sawn.first)
    assert [stroke.number for stroke in sawn.strokes] == list(range(1, len(sawn.strokes) + 1))
    for before, after in zip(sawn.stretches, sawn.stretches[1:], strict=False):
        assert after.start - before.end == KERF
    assert all(stretch.length <= limit for stretch in sawn.stretches[:-1])
    assert sawn.stretches[-1].length <= max(limit, each.offcut)


def test_stops_count_all_pieces_of_a_length_and_go_along_every_board() -> None:
    boards = planned(workshop(1, 80)).boards
    found = stops(boards)
    lengths = Counter(cut.length for each in boards for cut in each.cuts)
    assert {stop.length: stop.count for stop in found} == {key: n for key, n in lengths.items() if n > 1}
    turn = {stop.length: number for number, stop in enumerate(found)}
    for each in boards:
        order = [turn[cut.length] for cut in each.cuts if cut.length in turn]
        assert order == sorted(order)
    for stop in found:
        assert stop.boards == tuple(
            n for n, each in enumerate(boards, 1) if any(cut.length == stop.length for cut in each.cuts)
        )


def test_a_trapezoid_has_one_stop_however_it_lies() -> None:
    side = Length.inches("7/2")
    low, high = EndCut(side), EndCut(side, low=False)
    one = Cut("A", ZERO, Length.inches(30), (low, low))
    other = Cut("A", Length.inches(27), Length.inches(57), (high, high))
    each = PlannedBoard("4x4", Length.inches(96), 400, (one, other), Length.inches(38))
    assert [(stop.count, stop.leans) for stop in stops([each])] == [(2, (1, -1))]
