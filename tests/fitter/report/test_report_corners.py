"""How corners are told: tables at 80 columns, sentences and documents, of every treatment in both systems."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from io import StringIO
from itertools import product

import pytest
from hand_built import ANGLE, INSIDE, LOW, OUTSIDE, SPREAD, TABLE, Chain, Row, lay_out
from report_layouts import SQUARE, courtyard, inch, result
from shapely.geometry import Polygon

from fitter.domain.cushions import Cushion, CushionSide, Option
from fitter.domain.layout import Layout, Pose, Proof
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, Objective
from fitter.report.document import fit_document, written
from fitter.report.tables import print_fit
from fitter.report.terminal import console
from fitter.report.words import objective_bound, objective_name, teller
from rooms.geometry import Point
from rooms.lengths import ZERO, Length, Unit

ZIPPED = replace(SQUARE, zip=CushionSide.BACK)
LONG = Cushion("a kind with a longer name", inch(22), inch(23), inch(4), own=2, zip=CushionSide.LEFT)


def yard(unit: Unit = Unit.IN, over: Length = ZERO) -> Project:
    """The courtyard with zips, in a unit, whose cushions come forward by some length."""
    project = courtyard()
    frame = replace(project.frame, overhang=over)
    return replace(project, unit=unit, cushions=(ZIPPED, LONG), frame=frame)


def laid(project: Project, kind: CornerKind | None, arms: str = "right", option: Option | None = None) -> Layout:
    """A run of three with two-module arms at the hands that are named."""
    arm = Row(Option(ZIPPED), 2)
    chain = Chain(
        inch(40), inch(5), Row(Option(ZIPPED), 3),
        right=arm if arms in ("right", "both") else None, left=arm if arms in ("left", "both") else None,
        corner=kind, right_corner=option, left_corner=option,
    )  # fmt: skip
    return lay_out(project, Pose(Point(ZERO, ZERO), Fraction(1), Fraction(0), "AB"), chain)


def printed(project: Project, layout: Layout) -> str:
    """What the tables say."""
    out = StringIO()
    print_fit(console(out), project, result(layout))
    return out.getvalue()


def entry(project: Project, layout: Layout) -> dict[str, object]:
    """The layout in a document that was written and read again."""
    (found,) = json.loads(written(fit_document(project, result(layout))))["layouts"]
    assert isinstance(found, dict)
    return found


@pytest.mark.parametrize(("kind", "unit"), list(product(CornerKind, (Unit.IN, Unit.MM))))
def test_corners_fit_on_80_columns(kind: CornerKind, unit: Unit) -> None:
    project = yard(unit, inch(1) if unit is Unit.MM else ZERO)
    for option in (None, Option(LONG)):
        told = printed(project, laid(project, kind, "both", option))
        assert max(map(len, told.splitlines())) <= 80
        assert told.count(str(kind)) >= 3  # the headline and both corners
        assert not any(line != line.rstrip() for line in told.splitlines())


@pytest.mark.parametrize(
    ("kind", "told"),
    [
        (INSIDE, "A post stands in the corner, up to the top of the backs; the cushion there is cut for it."),
        (OUTSIDE, "A post stands outside the corner, up to the top of the backs; the cushion there stays whole."),
        (
            ANGLE,
            "above it two flat boards stand on the faces of the backs; the cushion there is cut along both boards.",
        ),
        (LOW, "ends under the seats; above it the backs are joined to each other; the cushion there stays whole."),
        (SPREAD, 'all cushions lie 3 3/4" off the backs, so that the cushion there stays whole.'),
        (TABLE, "up to the top of the backs; a table stands there instead of a cushion."),
    ],
)
def test_each_treatment_says_what_holds_the_backs_and_who_gives_way(kind: CornerKind, told: str) -> None:
    project = yard()
    assert told in " ".join(printed(project, laid(project, kind)).split())


def test_both_corners_of_a_u_are_told_together() -> None:
    project = yard()
    assert "The post of each corner ends" in printed(project, laid(project, LOW, "both"))
    said = " ".join(printed(project, laid(project, INSIDE, "both")).split())
    assert "in each corner, up to the top of the backs; the cushions there are cut for it." in said


def test_overhang_is_told_of_every_shape_and_straight_runs_have_no_corner() -> None:
    project = yard(over=inch(1))
    straight = " ".join(printed(project, laid(project, None, "")).split())
    assert 'Cushions come 1" forward over the front of the wood and lie as far off the backs.' in straight
    assert "corner place" not in straight
    spread = " ".join(printed(project, laid(project, SPREAD)).split())
    assert 'all cushions lie 2 3/4" farther off the backs' in spread
    assert 'Cushions come 1" forward over the front of the wood and lie 3 3/4" off the backs.' in spread


def test_notch_foam_sides_and_zip_are_rows_of_their_own() -> None:
    """3 3/4 squared is 14.06, or 70.3 through five inches; strips an inch deep, 3 3/4 and 3 1/2 long, have 7.25."""
    project = yard()
    inside, angle = (printed(project, laid(project, kind, "left")) for kind in (INSIDE, ANGLE))
    assert 'corner        inside post  square   3 3/4" × 3 3/4"  nothing' in inside
    assert "corner    14.1 sq in, 70.3 cu in  back and left  cut, in the back" in inside
    assert '1" deep along 3 3/4" and 4 1/2"' in " ".join(angle.split())
    assert "corner    7.2 sq in, 36.2 cu in  back and left  cut, in the back" in angle
    said = " ".join(inside.split())
    assert (
        "Half a turn before the cut keeps the zip of the corner cushion whole: it then faces the short run. So does a "
        "quarter turn clockwise, seen from above: it then faces the main run."
    ) in said
    assert said.count("A box cushion has a seam") == 1
    assert "A box cushion has a seam" not in printed(project, laid(project, OUTSIDE))


def test_zip_that_stays_whole_asks_for_no_turn() -> None:
    project = yard()
    told = printed(project, laid(project, INSIDE, "right", Option(LONG)))
    assert "whole, in the left" in told
    assert "before the cut" not in told
    plain = replace(project, cushions=(replace(ZIPPED, zip=None), LONG))
    assert "not said where" in printed(plain, laid(plain, INSIDE))


def test_foam_in_metric_units() -> None:
    """3 3/4 in are 95.25 mm: up to the mark 96 mm, so 92.16 cm² and through 127 mm 1170 cm³."""
    project = yard(Unit.MM)
    assert "92.2 cm², 1170 cm³" in printed(project, laid(project, INSIDE))


def test_gap_behind_cushions_is_not_told_again_as_a_bare_strip() -> None:
    project = yard()
    spread = printed(project, laid(project, SPREAD))
    assert "corner        spread     square   none   nothing" in spread
    smaller = printed(project, laid(project, SPREAD, "right", Option(LONG)))
    assert '2" × 24" and 22" × 1"' in smaller


def test_document_has_the_outline_of_all_that_is_cut() -> None:
    """The ring of a notch of strips is an L that encloses the area told."""
    project = yard()
    found = entry(project, laid(project, ANGLE, "both"))
    rings = [module["notch"] for module in found["modules"] if module["notch"] is not None]  # type: ignore[attr-defined]
    cuts = [corner["cut"] for corner in found["corners"]]  # type: ignore[attr-defined]
    assert [len(ring) for ring in rings] == [6, 6]
    assert [Polygon(ring).area for ring in rings] == [cut["area"] for cut in cuts] == [7.25, 7.25]
    assert [cut["volume"] for cut in cuts] == [36.25, 36.25]
    assert [cut["depth"] for cut in cuts] == [1, 1]
    assert [cut["sides"] for cut in cuts] == [["back", "right"], ["back", "left"]]
    assert cuts[0]["zip"] == "back"
    assert cuts[0]["zip_cut"] is True
    assert {"turn": "half a turn", "zip_faces": "right"} in cuts[0]["keeps_zip"]


def test_document_tells_gap_and_overhang_and_whole_cushions() -> None:
    project = yard(over=inch(1))
    found = entry(project, laid(project, SPREAD))
    assert (found["gap"], found["overhang"]) == (3.75, 1)
    assert found["corners"][0]["cut"] is None  # type: ignore[index]
    plain = entry(yard(), laid(yard(), OUTSIDE))
    assert (plain["gap"], plain["overhang"]) == (0, 0)


def test_short_posts_have_their_row_among_the_objectives() -> None:
    project, tell = yard(), teller(Unit.IN)
    assert objective_name(Objective.TALL) == "corners without a tall post"
    one, two = (Proof(Objective.TALL, 2, bound, proven=False) for bound in (1, 0))
    assert objective_bound(one, project, tell) == "at most 1 fewer corner without a tall post"
    assert objective_bound(two, project, tell) == "at most 2 fewer corners without a tall post"
    none = Proof(Objective.TALL, 0, 0, proven=True)
    assert objective_bound(none, project, tell) == "cannot be less than none"
