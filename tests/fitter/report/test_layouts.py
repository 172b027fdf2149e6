"""What is told of layouts: tables at 80 columns, documents, and in what one differs from another."""

from __future__ import annotations

import json
from dataclasses import replace
from io import StringIO

import pytest
from hand_built import TABLE
from report_layouts import BENCH, INSIDE, OPEN, SMALL, courtyard, inch, layout, result

from fitter.domain.cushions import Option
from fitter.domain.differences import differences
from fitter.domain.findings import Finding
from fitter.domain.fixing import fixing_gaps
from fitter.domain.layout import Layout, Proof, Side, Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.requirements import Rank, Requirement
from fitter.domain.wishes import EndKind, Objective
from fitter.report import rows
from fitter.report.document import fit_document, written
from fitter.report.fault import bundle
from fitter.report.reason import reason
from fitter.report.tables import print_fit
from fitter.report.terminal import console
from fitter.report.words import stamp, teller, verdict_line
from rooms.lengths import Unit
from rooms.room import Height, Obstacle

TELL = teller(Unit.IN)
PROJECT = courtyard()
SEATS = Proof(Objective.SEATS, 0, 9, proven=False)


def printed(found: FitResult, **room: object) -> str:
    """What the tables say, in a room that may be changed."""
    out = StringIO()
    project = replace(PROJECT, room=replace(PROJECT.room, **room)) if room else PROJECT
    print_fit(console(out), project, found)
    return out.getvalue()


@pytest.mark.parametrize(
    ("other", "told"),
    [
        (layout(4), ["run of 4 instead of 3"]),
        (layout(3, 2), ["L instead of straight"]),
        (layout(3, option=Option(BENCH)), ["run of 3 × bench instead of 3 × square"]),
        (layout(3, ends=(OPEN, OPEN)), ["right end open"]),
        (layout(3, x=50), ['10" nearer to corner B']),
        (layout(3, x=30), ['10" nearer to corner A']),
        (layout(4, x=53), ["run of 4 instead of 3", "1' 1\" nearer to corner B"]),
        (layout(4, x=52), ["run of 4 instead of 3"]),
        (layout(3, edge="BC"), ["along edge BC instead of AB"]),
    ],
)
def test_differences_of_a_straight_run(other: Layout, told: list[str]) -> None:
    assert list(differences(PROJECT, layout(3), other, TELL)) == told


@pytest.mark.parametrize(
    ("best", "other", "told"),
    [
        (layout(4, 2), layout(4, 0, 2), "short run on the left"),
        (layout(4, 2), layout(4, 3), "short run of 3 instead of 2"),
        (layout(4, 2), layout(4, 2, corner=INSIDE), "inside post instead of outside post"),
        (layout(4, 2), layout(4, 2, in_corner=Option(SMALL)), "corner of small"),
        (layout(4, 2, 2), layout(4, 2, 3), "left arm of 3 instead of 2"),
        (layout(3, 3, 3), layout(3, 3, 3, aligned=Side.LEFT), "the left arm along edge AB"),
    ],
)
def test_differences_of_chains(best: Layout, other: Layout, told: str) -> None:
    assert differences(PROJECT, best, other, TELL)[0] == told


def test_equal_layouts_differ_in_nothing() -> None:
    assert differences(PROJECT, layout(4, 2, 2), layout(4, 2, 2), TELL) == ()


def test_every_line_fits_on_80_columns() -> None:
    mixed = layout(2, 3, 1, option=Option(BENCH), in_corner=Option(SMALL))
    found = result(layout(6, 3, 3, corner=INSIDE), mixed, layout(3))
    told = printed(found)
    assert max(map(len, told.splitlines())) <= 80
    assert [f"\nlayout {rank} of 3: " in told for rank in (1, 2, 3)] == [True] * 3
    assert not any(line != line.rstrip() for line in told.splitlines())


def test_summary_counts_what_the_objectives_count() -> None:
    first, second = rows.summary(result(layout(6, 3, 3, corner=INSIDE), layout(3)), TELL)
    assert first[:5] == ("1", "U, inside post", "14", "2", "9")
    assert second == ("2", "straight", "3", "0", "0", "0", "1", '2 3/4"')


def test_one_layout_needs_no_rank() -> None:
    told = printed(result(layout(3)))
    assert "rank" not in told
    assert "straight, 3 seats" in told


def test_corner_that_is_not_covered_is_told_strip_by_strip() -> None:
    (row,) = rows.corners(layout(4, 2, in_corner=Option(SMALL)), TELL)
    assert row == ("corner", "outside post", "small", "none", '4" × 2\' 0" and 1\' 8" × 6"')
    right, left = rows.corners(layout(4, 2, 2, corner=INSIDE), TELL)
    assert (right[0], left[0], right[4]) == ("right corner", "left corner", "nothing")
    assert right[3] == '3 3/4" × 3 3/4"'
    (table,) = rows.corners(layout(4, 2, corner=TABLE), TELL)
    assert table == ("corner", "table corner", "a table", "none", "nothing")


def test_ends_are_told_by_their_hand() -> None:
    def told(*kinds: EndKind, arms: tuple[int, int] = (0, 0)) -> list[str]:
        return [row[5] for row in rows.runs(layout(3, *arms, ends=kinds), TELL)]

    assert told(EndKind.ARMED, OPEN) == ["armed right and open left"]
    assert told(OPEN, OPEN) == ["both open"]
    assert told(EndKind.ARMED, OPEN, arms=(2, 0)) == ["open", "armed"]
    assert told(EndKind.ARMED, OPEN, arms=(2, 2)) == ["corners", "open", "armed"]


def test_posts_at_either_corner_place_are_told_apart() -> None:
    told = {row[:2]: row[3] for row in rows.posts(layout(4, 2, 2))}
    assert told["left arm", "back"] == "centred between the corner place and module 1"
    assert told["left corner", "back"] == "where the backs meet"
    assert told["right corner", "front"] == "where the fronts meet"


def test_setting_out_names_the_arm_that_has_the_edge_behind_it() -> None:
    told = printed(result(layout(3, 3, 3, aligned=Side.LEFT)))
    assert "The back of the left arm stands" in told


def test_ground_notes_tell_what_low_things_holes_and_taps_ask_for() -> None:
    at = (PROJECT.room.outline[0],)
    obstacles = (
        Obstacle("drain", at, inch(3), inch(1), height=Height.LOW),
        Obstacle("tap", at, inch(3), inch(24), height=Height.REACH),
        Obstacle("tree well", at, inch(9), hole=True),
        Obstacle("planter", at, inch(9)),
    )
    told = " ".join(printed(result(layout(3)), obstacles=obstacles).split())
    assert 'drain lies low: no post and no end stands on it or within 1", seats may pass over' in told
    assert "tap has to be reached: nothing stands within 2' 0\"" in told
    assert "tree well a hole in the ground; nothing stands on it" in told
    assert "planter" not in told


def test_proven_layouts_are_not_called_unproven_where_more_were_wanted() -> None:
    stopped = replace(result(layout(4, 2), layout(3)), verdict=Verdict.FOUND, interrupted=True)
    told = verdict_line(stopped, PROJECT, TELL)
    assert told == "found: stopped by you; the layouts below are proven, more of them were not reached"


def test_interrupted_search_says_so_and_keeps_its_best() -> None:
    found = result(layout(4, 2), unproven=1, interrupted=True)
    assert verdict_line(found, PROJECT, TELL) == "found, not proven: stopped by you, best so far; at most 1 fewer post"
    nothing = FitResult(Verdict.UNKNOWN, bounds=(SEATS,), interrupted=True)
    assert verdict_line(nothing, PROJECT, TELL).startswith("unknown: stopped by you; no layout was found")


def test_unknown_tells_the_bound_that_is_proven_and_found_how_much_is_open() -> None:
    told = verdict_line(FitResult(Verdict.UNKNOWN, bounds=(SEATS,)), PROJECT, TELL)
    assert told == (
        "unknown: time ran out; no layout was found, and none was ruled out; one would have at most 9 seats"
    )
    assert fit_document(PROJECT, FitResult(Verdict.UNKNOWN, bounds=(SEATS,)))["bounds"] == [
        {"objective": "seats", "bound": 9}
    ]


def test_layout_that_time_ran_out_for_is_named() -> None:
    found = result(layout(4, 2), layout(4, 3), unproven=2)
    assert "layout 2: at most 1 fewer post" in verdict_line(found, PROJECT, TELL)
    told = printed(found)
    assert "\nproven\n" in told
    assert "all" not in stamp(found.layouts[0], PROJECT, TELL)
    assert stamp(found.layouts[1], PROJECT, TELL).startswith("best found, not proven")


def test_exhausted_search_says_that_there_are_no_more() -> None:
    told = verdict_line(result(layout(4, 2), layout(3), exhausted=True), PROJECT, TELL)
    assert told.startswith("proven: the 2 best layouts")
    assert told.endswith("no other differs enough from them")


def test_not_even_one_seat_names_the_cushions() -> None:
    clash = (
        Requirement("edge:AB", "room.sides.AB", "edge AB is short", Rank.TAPE),
        Requirement("least", "wish.seats.least", "one seat takes too much", Rank.WISH),
        Requirement("legroom", "wish.legroom", '18" stay clear before the seats', Rank.WISH),
    )
    project = replace(PROJECT, wish=replace(PROJECT.wish, least=1))
    told = reason(project, FitResult(Verdict.IMPOSSIBLE, clash=clash), TELL)
    assert "not even one seat finds a place, neither of cushion `square` (2' 0\" × 2' 0\") nor of `bench`" in told
    assert "one seat takes too much" not in told
    assert told.endswith('18" stay clear before the seats.')
    single = replace(project, cushions=project.cushions[:1])
    assert "not even one seat of cushion `square`" in reason(single, FitResult(Verdict.IMPOSSIBLE, clash=clash), TELL)
    wanted = (*clash, Requirement("shape", "wish.shape", "the shape is to be L", Rank.WISH))
    assert "not even one seat" not in reason(project, FitResult(Verdict.IMPOSSIBLE, clash=wanted), TELL)
    several = replace(PROJECT, wish=replace(PROJECT.wish, least=3))
    assert "not even one seat" not in reason(several, FitResult(Verdict.IMPOSSIBLE, clash=clash), TELL)


def test_document_tells_all_of_a_chain() -> None:
    found = result(
        layout(2, 5, 1, option=Option(BENCH), in_corner=Option(SMALL)), layout(4, 2, corner=INSIDE), unproven=2
    )
    document = json.loads(written(fit_document(PROJECT, found)))
    first, second = document["layouts"]
    assert (first["rank"], second["rank"], second["outcome"]) == (1, 2, "found")
    assert (first["aligned"], first["hand"], second["hand"]) == ("main", None, "right")
    assert [corner["corner"] for corner in first["corners"]] == ["right", "left"]
    assert [strip["size"] for strip in first["corners"][1]["uncovered"]] == [[4, 24], [20, 6]]
    assert first["corners"][0]["owner"] == "right"
    assert second["corners"][0]["notch"] == [3.75, 3.75]
    assert [end["hand"] for end in first["ends"]] == ["left", "right"]
    assert first["purchases"][1] == {"cushion": "bench", "used": 2, "own": 1, "buy": 1}
    assert first["cushions"][1] == {"cushion": "bench", "used": 2, "own": 1, "buy": 1, "cost": 90}
    assert [(run["run"], run["count"], run["pitch"]) for run in first["runs"]] == [
        ("main", 2, 48), ("left", 1, 24), ("right", 5, 24),
    ]  # fmt: skip
    assert first["differs"] == []
    assert second["differs"][0] == "L instead of U"
    assert first["proofs"][0] == {
        "objective": "seats",
        "value": first["seats"],
        "bound": first["seats"],
        "proven": True,
    }


def test_document_keeps_the_keys_that_were_promised() -> None:
    document = fit_document(PROJECT, result(layout(4, 2)))
    assert {"schema", "units", "outcome", "title", "file", "layouts", "proofs", "findings"} <= set(document)
    (entry,) = document["layouts"]
    runs = {"runs", "modules", "ends", "footprint", "posts", "rails", "routes", "cushions"}
    assert {"rank", "shape", "hand", "seats", "corner", "turned", "edge", "off_edge"} | runs <= set(entry)
    assert set(entry["posts"][0]) == {"role", "run", "face", "line", "outline"}
    assert {"run", "place", "cushion", "turned", "outline", "notch"} <= set(entry["modules"][0])


def test_reach_is_counted_along_the_edge_whichever_run_lies_there() -> None:
    main, right, left = (layout(3, 3, 3, aligned=side) for side in (Side.MAIN, Side.RIGHT, Side.LEFT))
    ys = [value for box in main.footprint for value in (box.y0, box.y1)]
    assert main.reach == (min(box.x0 for box in main.footprint), max(box.x1 for box in main.footprint))
    assert left.reach == (min(ys), max(ys))
    assert right.reach == (-max(ys), -min(ys))


def test_fault_bundle_holds_each_faulty_layout_and_the_file() -> None:
    found = result(layout(4, 2), layout(3))
    wrong = replace(found.layouts[1], verdict=Verdict.FAULT)
    finding = Finding("overlap", "two cushions overlap")
    faulty = replace(found, verdict=Verdict.FAULT, layouts=(found.layouts[0], wrong), checked=(finding,))
    text = bundle(faulty, ["title: Yard"])
    assert "overlap: two cushions overlap" in text
    assert "layout 2: Layout(" in text
    assert "layout 1:" not in text
    assert text.endswith("project file:\ntitle: Yard")
    assert fit_document(PROJECT, faulty)["layouts"] == []


def test_free_standing_place_is_fixed_by_three_gaps_that_do_not_all_lie_at_one_edge() -> None:
    """Frame and room share their axes here; AB is the x axis and FA the y axis."""
    ell = layout(4, 2, edge=None)
    back, far, low = ell.runs[0].back.y0, max(end.box.y1 for end in ell.ends), ell.reach[0]
    right, left, end = fixing_gaps(PROJECT.room, ell)
    assert (right.corner, left.corner, end.corner) == (
        "right end of the back", "left end of the back", "end of the right arm",
    )  # fmt: skip
    assert [gap.edge for gap in (right, left, end)] == ["AB", "AB", "FA"]
    outer = inch("3/2")  # the outside post stands farther out than the back panel: 5 - 7/2
    assert (right.length, left.length) == (outer, outer)
    assert back > outer
    assert abs(end.length - low) < inch("1/4")  # the railing is taped almost at a right angle
    assert far > back
    told = " ".join(printed(result(ell)).split())
    assert "It stands free" in told
    assert 'the right end of the back 1 1/2" from edge AB' in told
    (entry,) = fit_document(PROJECT, result(ell))["layouts"]
    assert entry["gaps"][0] == {"corner": "right end of the back", "edge": "AB", "distance": 1.5}
    assert fit_document(PROJECT, result(layout(3)))["layouts"][0]["gaps"] == []
