"""What is told of a frame that is carried in pieces."""

from __future__ import annotations

from dataclasses import replace
from io import StringIO

from hand_built import INSIDE, LEFT, OUTSIDE
from report_layouts import result
from yards import carried, split_ell, split_straight, split_u, straight

from fitter.domain.requirements import requirements
from fitter.report import rows
from fitter.report.entries import layout_entry
from fitter.report.reason import reason
from fitter.report.tables import print_fit
from fitter.report.terminal import console
from fitter.report.words import source_line, teller
from rooms.lengths import Unit

TELL = teller(Unit.IN)


def test_pieces_of_a_straight_run() -> None:
    """3 × 24 1/4 in with an end of 1 1/2 in, 3 × 24 1/4 in, 2 × 24 1/4 in with an end."""
    assert list(rows.pieces(split_straight().layout, TELL)) == [
        ("main", "1 to 3", "6' 2 1/4\""),
        ("main", "4 to 6", "6' 0 3/4\""),
        ("main", "7 to 8", "4' 2\""),
    ]


def test_pieces_with_corners_are_counted_from_them() -> None:
    assert list(rows.pieces(split_ell(INSIDE, LEFT).layout, TELL)) == [
        ("main", "1 to 2 and the corner", "6' 4 1/4\""),
        ("main", "3", "2' 1 3/4\""),
        ("left arm", "1 to 2", "4' 2\""),
    ]
    assert list(rows.pieces(split_u(OUTSIDE).layout, TELL)) == [
        ("main", "1", "2' 0 1/4\""),
        ("left arm", "the left corner", "2' 3 3/4\""),
        ("left arm", "1 to 2", "4' 2\""),
        ("right arm", "1 and the right corner", "4' 4\""),
        ("right arm", "2 to 3", "4' 2\""),
    ]


def test_pairs_of_posts_are_told_apart() -> None:
    """Those of the arm begin where it is split off; in front the corner's post is one of the pair."""
    told = list(rows.posts(split_ell(INSIDE, LEFT).layout))
    assert told == [
        ("main", "front", "1", "centred after module 1"),
        ("main", "front", "2", "a pair after module 2"),
        ("main", "back", "2", "centred between the corner place and module 1 and after module 1"),
        ("main", "back", "2", "a pair after module 2"),
        ("left arm", "front", "1", "centred after module 1"),
        ("left arm", "front", "1", "beside the post where the fronts meet"),
        ("left arm", "back", "1", "centred after module 1"),
        ("left arm", "back", "2", "a pair between the corner place and module 1"),
        ("corner", "front", "1", "where the fronts meet"),
        ("corner", "back", "1", "where the backs meet"),
    ]
    pairs = [row for row in rows.posts(split_straight().layout) if "pair" in row[3]]
    assert pairs == [("main", face, "4", "pairs after modules 3 and 6") for face in ("front", "back")]


def test_document_tells_splits_only_where_pieces_are_asked_for() -> None:
    yard, plain = split_ell(INSIDE, LEFT), straight()
    found = result(yard.layout)
    entry = layout_entry(yard.project, found, found.layouts[0])
    assert entry["splits"] == [{"run": "main", "line": 2}, {"run": "left", "line": 0}]
    assert entry["pieces"][0] == {"run": "main", "first": 1, "last": 2, "corners": ["left"], "length": 76.25}
    other = result(plain.layout)
    assert not {"splits", "pieces"} & set(layout_entry(plain.project, other, other.layouts[0]))


def test_table_of_pieces_is_printed_where_there_are_several() -> None:
    for yard, told in ((split_straight(), True), (straight(), False)):
        out = StringIO()
        print_fit(console(out), yard.project, result(yard.layout))
        assert ("carried in" in out.getvalue()) is told


def test_reason_names_what_can_be_carried() -> None:
    """And the line of the file that says so, be it of the length alone or of both."""
    project = carried(straight().project, 24)
    (fact,) = [fact for fact in requirements(project) if fact.id == "carry"]
    clash = replace(result(), clash=(fact,))
    told = reason(project, clash, TELL)
    assert told == "No layout fits: no piece that is carried in is longer than 2' 0\"; this cannot be met."
    assert source_line(project, fact.key) == "a default"
