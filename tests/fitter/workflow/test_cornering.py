"""The corner trade-off: each row is a plain fit, dominance and growth are recomputed here."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from shapely.geometry import box as shapely_box
from shapely.ops import unary_union

from fitter.checking import check_layout
from fitter.domain.layout import Box, Side, Verdict
from fitter.domain.project import Project
from fitter.domain.tradeoff import Bar, TradeOff
from fitter.domain.wishes import CornerKind, Shape
from fitter.model.resizing import resized
from fitter.project import read_project
from fitter.report.corners_units import Units
from fitter.report.corners_words import costs, gives, straight_line
from fitter.report.words import teller
from fitter.workflow.boards import boards
from fitter.workflow.cornering import corner_trade_off
from fitter.workflow.fitting import fit
from rooms.lengths import ZERO, Length

EXAMPLES = Path(__file__).parents[3] / "examples"


@pytest.fixture(scope="module")
def deck() -> Project:
    """An L; its cushions must not be cut."""
    return read_project(str(EXAMPLES / "deck.yaml"))


@pytest.fixture(scope="module")
def made(deck: Project) -> TradeOff:
    return corner_trade_off(deck, at_once=2)


def test_each_row_is_a_plain_fit(deck: Project, made: TradeOff) -> None:
    assert [each.corner for each in made.treatments] == list(CornerKind)
    for each in made.treatments:
        plain = fit(replace(deck, wish=replace(deck.wish, corner=each.corner)))
        assert (plain.verdict, plain.layout, plain.proofs) == (each.fit.verdict, each.layout, each.fit.proofs)
        assert plain.clash == each.fit.clash
        if each.built is not None:
            assert boards(deck, plain).cost == each.built.boards
    assert made.verdict is Verdict.PROVEN


def test_dominated_rows(made: TradeOff) -> None:
    rows = {}
    for each in made.treatments:
        layout, built = each.layout, each.built
        if layout is None or built is None:
            continue
        bare = sum(_units(s.x0, s.x1) * _units(s.y0, s.y1) for place in layout.corners for s in place.bare)
        assert built.boards is not None
        assert built.cushions is not None
        assert built.stiffness is not None
        cut = sum(module.notch is not None for module in layout.modules)
        rows[each.corner] = (
            -layout.seats,
            built.foam,
            unary_union([shapely_box(*map(_count, _corners(box))) for box in layout.footprint]).area,
            layout.gap.units,
            bare,
            built.boards + built.cushions,
            -Fraction(f"{built.stiffness:.2e}"),
            cut > 0,
        )
    assert len(rows) > 2
    for name, row in rows.items():
        over = [
            other for other, best in rows.items() if best != row and all(a <= b for a, b in zip(best, row, strict=True))
        ]
        assert made.dominated_by(name) == tuple(over)


def _corners(box: Box) -> tuple[Length, ...]:
    return box.x0, box.y0, box.x1, box.y1


def _count(length: Length) -> int:
    return length.units


def _units(low: Length, high: Length) -> int:
    return (high - low).units


def test_cushions_that_stay_whole_forbid_what_cuts_them(made: TradeOff) -> None:
    verdicts = {each.corner: each.fit.verdict for each in made.treatments}
    assert verdicts[CornerKind.INSIDE_POST] is verdicts[CornerKind.ANGLE_POST] is Verdict.IMPOSSIBLE
    for step in made.steps:
        assert (step.bar in (Bar.FOAM, Bar.TIPS)) is bool(step.notch or step.bar is Bar.TIPS)


def test_the_ground_grows_by_every_module_with_ease_and_once_with_overhang(made: TradeOff) -> None:
    """Of an L: n + 1 cushions along the main run and m + 1 along the arm; the arm and the main run are as deep each."""
    layout = next(each.layout for each in made.treatments if each.corner is made.start)
    assert layout is not None
    main, arm = layout.runs[0].count, layout.runs[1].count
    assert len(made.steps) > 8
    for step in made.steps:
        over = step.overhang
        assert step.longer == (main + 1) * step.more + over
        assert step.deeper == (arm + 1) * step.more + over
        assert step.gap == over
    last = [step for step in made.steps if not step.notch]
    assert {step.post.name for step in last} == {"4x4", "6x6"}


def test_a_layout_at_its_own_sizes_is_itself(deck: Project, made: TradeOff) -> None:
    for each in made.treatments:
        if each.layout is not None:
            own = replace(deck, wish=replace(deck.wish, corner=each.corner))
            again = resized(own, each.layout)
            assert again is not None
            assert replace(again, routes=each.layout.routes) == each.layout


def test_a_step_that_fits_is_accepted_by_the_checker(deck: Project, made: TradeOff) -> None:
    """And one whose arrangement found no place is not accepted where it stood."""
    layout = next(each.layout for each in made.treatments if each.corner is made.start)
    assert layout is not None
    inside = replace(layout, corner=CornerKind.INSIDE_POST)
    for step in made.steps:
        frame = replace(deck.frame, post=step.post, overhang=step.overhang)
        kinds = tuple(replace(kind, ease=kind.ease + step.more) for kind in deck.cushions)
        sized = replace(
            deck, frame=frame, cushions=kinds, wish=replace(deck.wish, corner=CornerKind.INSIDE_POST)
        )  # fmt: skip
        laid = resized(sized, inside)
        assert laid is not None
        right = next(module.notch for module in laid.modules if module.corner) if step.notch else None
        assert (right.along_x if right else ZERO) == step.notch
        if step.bar in (Bar.ROOM, Bar.ELSEWHERE, Bar.NONE, Bar.FOAM):
            assert check_layout(sized, laid)


@pytest.fixture(scope="module")
def landing() -> tuple[Project, TradeOff]:
    """So small that a straight run does as well as two runs around a table."""
    project = read_project(str(EXAMPLES / "landing.yaml"))
    free = replace(project, wish=replace(project.wish, shape=None, least=1))
    return free, corner_trade_off(free, at_once=1)


def test_where_a_straight_run_comes_first_the_best_with_a_corner_is_shown(landing: tuple[Project, TradeOff]) -> None:
    project, made = landing
    table = made.treatments[-1]
    wish = replace(project.wish, corner=table.corner)
    plain = fit(replace(project, wish=wish))
    assert plain.layout is not None
    assert plain.layout.corner is None
    assert table.straight == plain.layout.seats
    shaped = {shape: fit(replace(project, wish=replace(wish, shape=shape))).layout for shape in (Shape.L, Shape.U)}
    assert shaped[Shape.U] is None
    assert table.layout == shaped[Shape.L]
    assert made.straight is not None
    assert made.straight.layout == plain.layout
    others = [each for each in made.treatments if each is not table]
    assert [each.straight for each in others] == [None] * 5


def test_some_treatment_is_dominated_where_another_is_alike_but_stiffer(landing: tuple[Project, TradeOff]) -> None:
    """As many seats on the same ground, less foam cut, and cheaper."""
    _, made = landing
    inside, _, angle = made.treatments[:3]
    assert inside.built is not None
    assert angle.built is not None
    assert angle.built.foam < inside.built.foam
    assert angle.built.boards is not None
    assert inside.built.boards is not None
    assert angle.built.boards < inside.built.boards
    assert made.dominated_by(inside.corner) == (angle.corner,)
    assert not made.dominated_by(angle.corner)


def test_sentences_name_what_is_given_and_what_it_costs(landing: tuple[Project, TradeOff]) -> None:
    project, made = landing
    units = Units(True, teller(project.unit))
    table, inside = made.treatments[-1], made.treatments[0]
    assert table.layout is not None
    assert inside.layout is not None
    fewer = inside.layout.seats - table.layout.seats
    assert f"{fewer} seat" in costs(made, table, units)
    assert "foam" in costs(made, inside, units)
    assert "foam cut" not in gives(made, inside, units)
    assert "no cushion cut (so it can be undone)" in gives(made, table, units)
    assert "cut for good" in costs(made, inside, units)
    assert list(straight_line(project, made))


def test_a_left_corner_is_the_mirror_image_of_a_right_one(deck: Project, made: TradeOff) -> None:
    """What is drawn of an L does not depend on its hand; and the sketch shows what the treatment is about."""
    from fitter.drawing.corners_sketch import corner_sketch
    from fitter.drawing.page import Dimension
    from fitter.drawing.view import View

    for each in made.treatments:
        if each.layout is None:
            continue
        place = each.layout.corners[0]
        drawn = corner_sketch(deck, each.layout, View(16, deck.unit))
        sizes = [item.length for item in drawn if isinstance(item, Dimension)]
        assert place.corner in (Side.RIGHT, Side.LEFT)
        assert place.box.x1 - place.box.x0 in sizes
        assert place.box.y1 - place.box.y0 in sizes
        assert (each.layout.gap in sizes) is bool(each.layout.gap)
