"""A frame to its boards: every part planned once, and what is not known never counted as nothing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from fitter.checking import check_plan
from fitter.domain.board_list import BoardList, SectionPlan
from fitter.domain.cuts import BoardPlan
from fitter.domain.findings import Finding
from fitter.domain.frame import Board, Section
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FrameResult
from fitter.domain.project import Project
from fitter.domain.woodwork import Part
from fitter.project import read_project
from fitter.report.sawing.document import boards_document
from fitter.report.sawing.rows import buy, lacking
from fitter.report.words import teller
from fitter.workflow import boards as workflow
from fitter.workflow.boards import boards_of, options_of, pieces_of
from fitter.workflow.fitting import fit
from fitter.workflow.framing import frame
from rooms.lengths import Length, Unit

EXAMPLES = Path(__file__).parents[3] / "examples"
TELL = teller(Unit.IN)


@pytest.fixture(scope="module")
def project() -> Project:
    return read_project(str(EXAMPLES / "garden-wall.yaml"))


@pytest.fixture(scope="module")
def framed(project: Project) -> FrameResult:
    return frame(project, fit(project))


@pytest.fixture(scope="module")
def made(project: Project, framed: FrameResult) -> BoardList:
    return boards_of(project, framed)


def parts(framed: FrameResult) -> tuple[Part, ...]:
    assert framed.woodwork is not None
    return framed.woodwork.parts


def shop(project: Project, change: Callable[[Board], Board | None]) -> Project:
    """The project with other boards in its shop."""
    boards = tuple(board for each in project.shop.boards if (board := change(each)) is not None)
    return replace(project, shop=replace(project.shop, boards=boards))


def priced(project: Project, price: Fraction | None) -> Project:
    """The project with another price of its 2x4."""
    return shop(project, lambda board: replace(board, price=price) if board.section == "2x4" else board)


def section(made: BoardList, name: str) -> SectionPlan:
    return next(each for each in made.sections if each.section == name)


def test_every_part_of_the_frame_is_cut_once(framed: FrameResult, made: BoardList) -> None:
    asked = Counter((part.section.name, part.mark, part.length) for part in parts(framed))
    cut = Counter((board.section, each.mark, each.length) for board in made.boards for each in board.cuts)
    assert cut == asked
    assert made.verdict is Verdict.PROVEN
    assert made.complete


def test_plans_pass_the_check_and_sum_to_the_cost(project: Project, framed: FrameResult, made: BoardList) -> None:
    for each in made.sections:
        assert each.result is not None
        assert each.result.plan is not None
        assert check_plan(each.pieces, each.stocks, options_of(project), each.result.plan) == ()
    assert made.cost == made.bound == sum(board.price or 0 for board in made.boards)


def test_small_parts_come_first_where_there_are_any(made: BoardList) -> None:
    pads = [board for board in made.boards if any(cut.length < Length.inches(4) for cut in board.cuts)]
    assert pads
    for board in pads:
        lengths = [cut.length for cut in board.cuts]
        assert lengths == sorted(lengths)


def test_section_without_a_board_is_told_and_costs_nobody_nothing(project: Project, framed: FrameResult) -> None:
    made = boards_of(shop(project, lambda board: None if board.section == "1x4" else board), framed)
    assert section(made, "1x4").boards == ()
    assert section(made, "1x4").cost is None
    assert not made.complete
    assert made.verdict is Verdict.PROVEN
    told = list(lacking(made, TELL, TELL))
    assert len(told) == 1
    assert told[0].endswith("no board of 1x4 is named under `shop.boards`")
    assert boards_document(project, made)["complete"] is False


def test_section_without_prices_is_planned_with_its_cost_unknown(project: Project, framed: FrameResult) -> None:
    made = boards_of(
        shop(project, lambda board: replace(board, price=None) if board.section == "2x4" else board), framed
    )
    planned = section(made, "2x4")
    assert planned.boards
    assert planned.cost is None
    assert made.cost == sum(board.price or 0 for board in made.boards if board.section != "2x4")
    rows = list(buy(made, TELL))
    assert [row[3:] for row in rows if row[0] == "2x4"] == [("?", "?")] * len({b.length for b in planned.boards})
    assert rows[-1][-1].endswith("+ ?")


def test_board_without_a_price_beside_others_is_left_out_and_told(project: Project, framed: FrameResult) -> None:
    lone = Board("2x4", Length.inches(192))
    made = boards_of(replace(project, shop=replace(project.shop, boards=(*project.shop.boards, lone))), framed)
    assert [stock.length for stock in section(made, "2x4").unpriced] == [lone.length]
    assert any("no price" in line for line in lacking(made, TELL, TELL))
    assert made.complete


def test_part_longer_than_every_board_is_named(project: Project, framed: FrameResult) -> None:
    short = Length.inches(24)
    made = boards_of(
        shop(project, lambda board: replace(board, length=short) if board.section == "2x4" else board), framed
    )
    worst = section(made, "2x4").too_long
    assert worst is not None
    assert worst.length == max(part.length for part in parts(framed) if part.section.name == "2x4")
    assert made.verdict is Verdict.IMPOSSIBLE
    assert f"`{worst.mark}`" in next(lacking(made, TELL, TELL))
    assert all(each.boards for each in made.sections if each.section != "2x4")


def test_boards_on_hand_that_do_not_suffice(project: Project, framed: FrameResult) -> None:
    lone = Board("2x4", Length.inches(96), None, 1)
    made = boards_of(shop(project, lambda board: lone if board.section == "2x4" else board), framed)
    assert made.verdict is Verdict.IMPOSSIBLE
    assert section(made, "2x4").boards == ()
    assert "none are sold" in next(lacking(made, TELL, TELL))


def test_plan_that_the_check_refuses_is_a_fault(
    project: Project, framed: FrameResult, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> tuple[Finding, ...]:
        return (Finding("overlap", "two parts overlap"),)

    monkeypatch.setattr(workflow, "check_plan", refuse)
    made = boards_of(project, framed)
    assert made.verdict is Verdict.FAULT
    assert made.boards == ()
    document = boards_document(project, made)
    assert document["boards"] == []
    assert document["errors"][0]["code"] == "overlap"


def test_sections_of_one_size_are_cut_from_the_same_boards(framed: FrameResult) -> None:
    """A metric file may call a post `4x4` and an arm by its size."""
    some = [part for part in parts(framed) if part.section.name == "4x4"][:2]
    other = Section("89 x 89", some[0].section.thickness, some[0].section.width)
    pieces = pieces_of([some[0], replace(some[1], section=other)])
    assert {piece.section for piece in pieces} == {"4x4"}


def test_price_of_parts_of_a_cent_is_rounded_to_the_cent(project: Project, framed: FrameResult) -> None:
    made = boards_of(priced(project, Fraction("4.355")), framed)
    assert {board.price for board in section(made, "2x4").boards} == {436}


def test_no_frame_no_boards(project: Project, framed: FrameResult) -> None:
    made = boards_of(project, replace(framed, shown=None, woodwork=None))
    assert (made.boards, made.cost) == ((), None)


def test_notes_and_bounds_of_a_plan_that_is_only_found(made: BoardList) -> None:
    """What time cut off is told as such, section by section."""
    first = made.sections[0]
    assert first.result is not None
    plan = first.result.plan
    assert plan is not None
    assert plan.bound is not None
    loose: BoardPlan = replace(plan, bound=plan.bound - 1)
    result = replace(first.result, verdict=Verdict.FOUND, plan=loose)
    other = replace(made, sections=(replace(first, result=result), *made.sections[1:]))
    assert other.verdict is Verdict.FOUND
    assert made.bound is not None
    assert other.bound == made.bound - 1
