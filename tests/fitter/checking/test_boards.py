"""The check of board plans notices whatever is changed in a sound one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from fitter.checking import check_plan
from fitter.cutting import plan_boards
from fitter.domain.cuts import BoardPlan, Cut, CutOptions, Piece, PlannedBoard, Stock
from fitter.domain.woodwork import EndCut, Slant
from rooms.lengths import Length

inch = Length.inches
MITRE = EndCut(inch("7/2"), Slant.WIDTH)
OPTIONS = CutOptions(inch("1/8"), inch("1/2"), longest_carried=inch(150))
PIECES = (
    Piece("A", "2x4", inch(40), 3),
    Piece("B", "2x4", inch(17), 2),
    Piece("T", "2x4", inch(30), 2, (MITRE, MITRE), face_up=True),
)
STOCKS = (Stock("2x4", inch(96), 450), Stock("2x4", inch(144), 700), Stock("2x4", inch(45), None, 1))


@pytest.fixture(scope="module")
def plan() -> BoardPlan:
    return plan_boards(PIECES, STOCKS, OPTIONS)


def with_board(plan: BoardPlan, number: int, **changes: object) -> BoardPlan:
    boards = list(plan.boards)
    boards[number] = replace(boards[number], **changes)  # type: ignore[arg-type]
    return replace(plan, boards=tuple(boards))


def with_cut(plan: BoardPlan, of_mark: str, **changes: object) -> BoardPlan:
    """The plan with the last cut of some mark changed."""
    number, board = next(
        (n, b) for n, b in reversed(list(enumerate(plan.boards))) if of_mark in [c.mark for c in b.cuts]
    )
    at = max(at for at, cut in enumerate(board.cuts) if cut.mark == of_mark)
    cut = replace(board.cuts[at], **changes)  # type: ignore[arg-type]
    return with_board(plan, number, cuts=(*board.cuts[:at], cut, *board.cuts[at + 1 :]))


def of(plan: BoardPlan, mark: str) -> Cut:
    return [cut for board in plan.boards for cut in board.cuts if cut.mark == mark][-1]


def moved(plan: BoardPlan, mark: str, by: Length) -> BoardPlan:
    cut = of(plan, mark)
    return with_cut(plan, mark, start=cut.start + by, end=cut.end + by)


def nested(plan: BoardPlan) -> BoardPlan:
    """The second of two mitred neighbours a hundredth of an inch nearer to the first."""
    board = next(board for board in plan.boards if [cut.mark for cut in board.cuts].count("T") == 2)
    second = [cut for cut in board.cuts if cut.mark == "T"][1]
    assert second.start < board.cuts[board.cuts.index(second) - 1].end, "they share a cut"
    return moved(plan, "T", inch("-1/100"))


def one_more_on_hand(plan: BoardPlan) -> BoardPlan:
    board = next(board for board in plan.boards if board.on_hand)
    return replace(plan, boards=(*plan.boards, board))


def shop(plan: BoardPlan) -> int:
    return next(number for number, board in enumerate(plan.boards) if not board.on_hand)


CHANGES: dict[str, tuple[str, Callable[[BoardPlan], BoardPlan]]] = {
    "a board left out": ("part-count", lambda plan: replace(plan, boards=plan.boards[1:])),
    "a part too short": ("part-count", lambda plan: with_cut(plan, "B", end=of(plan, "B").end - Length(1))),
    "a wrong mark": ("part-count", lambda plan: with_cut(plan, "B", mark="A")),
    "a mitre left out": ("part-count", lambda plan: with_cut(plan, "T", ends=(EndCut(), EndCut()))),
    "mitres that lean one way": (
        "part-count",
        lambda plan: with_cut(plan, "T", ends=(MITRE, replace(MITRE, low=False))),
    ),
    "a part off the board": ("off-board", lambda plan: moved(plan, "B", inch(90))),
    "a part into the trim": ("off-board", lambda plan: with_first_at(plan, inch("1/4"))),
    "parts too near": ("overlap", lambda plan: moved(plan, "B", Length(-1))),
    "mitred parts too near": ("overlap", nested),
    "an offcut too long": (
        "wrong-offcut",
        lambda plan: with_board(plan, 0, offcut=plan.boards[0].offcut + inch(1)),
    ),
    "a wrong price": ("no-such-board", lambda plan: with_board(plan, shop(plan), price=449)),
    "a board that is not sold": ("no-such-board", lambda plan: with_board(plan, shop(plan), length=inch(100))),
    "a board on hand too many": ("not-on-hand", one_more_on_hand),
    "a wrong sum": ("wrong-cost", lambda plan: replace(plan, cost=(plan.cost or 0) - 1)),
    "a bound above the cost": ("wrong-bound", lambda plan: replace(plan, bound=(plan.cost or 0) + 1)),
    "no bound": ("wrong-bound", lambda plan: replace(plan, bound=None)),
    "a waste below nothing": ("wrong-waste", lambda plan: replace(plan, waste=Length(-1))),
    "the aims in another order": ("wrong-aims", lambda plan: replace(plan, reached=plan.reached[1:])),
    "an empty board": ("board-empty", lambda plan: with_board(plan, 0, cuts=())),
}  # fmt: skip


def with_first_at(plan: BoardPlan, start: Length) -> BoardPlan:
    board: PlannedBoard = plan.boards[0]
    first = board.cuts[0]
    cuts = (replace(first, start=start, end=start + first.length), *board.cuts[1:])
    return with_board(plan, 0, cuts=cuts)


def test_a_sound_plan_passes(plan: BoardPlan) -> None:
    assert check_plan(PIECES, STOCKS, OPTIONS, plan) == ()
    assert {cut.mark for board in plan.boards for cut in board.cuts} == {"A", "B", "T"}


@pytest.mark.parametrize("name", CHANGES)
def test_a_change_is_noticed(name: str, plan: BoardPlan) -> None:
    code, change = CHANGES[name]
    assert code in [finding.code for finding in check_plan(PIECES, STOCKS, OPTIONS, change(plan))]


def test_a_board_that_cannot_be_carried_is_noticed(plan: BoardPlan) -> None:
    light = replace(OPTIONS, longest_carried=inch(60))
    assert "board-too-long" in [finding.code for finding in check_plan(PIECES, STOCKS, light, plan)]


def test_a_part_with_the_wrong_face_up_is_noticed(plan: BoardPlan) -> None:
    """A parallelogram that may not be flipped, flipped."""
    leaning = (MITRE, replace(MITRE, low=False))
    piece = Piece("P", "2x4", inch(30), 1, leaning, face_up=True)
    sound = plan_boards([piece], STOCKS[:1], OPTIONS)
    assert check_plan([piece], STOCKS[:1], OPTIONS, sound) == ()
    flipped = with_cut(sound, "P", ends=(replace(MITRE, low=False), MITRE))
    codes = [finding.code for finding in check_plan([piece], STOCKS[:1], OPTIONS, flipped)]
    assert codes == ["part-flipped"]
