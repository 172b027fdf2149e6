"""What is told of the shed, and of buying more than is in it; layouts are laid out by hand."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from report_layouts import SMALL, SQUARE, courtyard, layout, result

from fitter.domain.cushions import Condition
from fitter.domain.layout import Layout, Verdict
from fitter.domain.outcome import LayoutResult
from fitter.domain.owned import BUY_AT_MOST, BUY_KEY, ONLY_OWNED, Buying, Step, limited, shed
from fitter.domain.project import Project
from fitter.report.document import fit_document
from fitter.report.more_bought import buying_lines, buying_rows
from fitter.report.shed import limit_line, shed_lines
from fitter.report.tables import print_fit
from fitter.report.terminal import console
from fitter.report.words import source_line

GOOD, WORN, POOR = Condition


def yard(*conditions: tuple[Condition, int]) -> Project:
    """Five squares in these conditions, and one small cushion."""
    return replace(courtyard(), cushions=(replace(SQUARE, conditions=conditions), SMALL))


def test_the_best_are_used_first() -> None:
    squares, small = shed(yard((GOOD, 2), (WORN, 2), (POOR, 1)), layout(3))
    assert (squares.own, squares.used, squares.over) == (5, 3, 2)
    assert squares.conditions == ((GOOD, 2), (WORN, 1))
    assert squares.left == ((WORN, 1), (POOR, 1))
    assert (small.cushion, small.used, small.over) == ("small", 0, 1)


@pytest.mark.parametrize(
    ("conditions", "count", "told"),
    [
        ((), 3, ["Left over: 2 of square and 1 of small."]),
        (((GOOD, 3), (WORN, 2)), 3, ["Left over: 2 of square (worn) and 1 of small."]),
        (
            ((GOOD, 2), (WORN, 2), (POOR, 1)),
            3,
            [
                "Left over: 2 of square (1 worn, 1 poor) and 1 of small.",
                "Used although no longer good: 1 worn of square.",
            ],
        ),
        ((), 7, ["Left over: 1 of small."]),
    ],
)  # fmt: skip
def test_what_is_left_over(conditions: tuple[tuple[Condition, int], ...], count: int, told: list[str]) -> None:
    assert list(shed_lines(yard(*conditions), layout(count))) == told


def test_a_shed_that_is_used_up_is_told_only_where_nothing_is_bought() -> None:
    bare = replace(courtyard(), cushions=(SQUARE,))
    assert list(shed_lines(bare, layout(5))) == []
    assert list(shed_lines(limited(bare, 0, ONLY_OWNED), layout(5))) == ["Nothing is left over."]


def test_a_flag_beats_the_file_and_is_told_as_its_source() -> None:
    asked = limited(courtyard(), 3, BUY_AT_MOST)
    assert asked.wish.buy_most == 3
    assert source_line(asked, BUY_KEY) == "`--buy-at-most 3`"
    assert limit_line(asked) == "with at most 3 cushions bought, as `--buy-at-most 3` asks"
    assert limit_line(limited(courtyard(), 0, ONLY_OWNED)) == "with no cushion bought, as `--only-owned` asks"
    assert limit_line(courtyard()) == ""


def test_kinds_of_which_nothing_is_said_are_noted_where_none_is_bought() -> None:
    unsaid = replace(courtyard(), cushions=(replace(SQUARE, own=None), SMALL))
    notes = [finding for finding in limited(unsaid, 0, ONLY_OWNED).findings if finding.code == "none-owned"]
    assert [note.key for note in notes] == ["cushions.0"]
    assert "`square` has no `own`" in notes[0].message
    assert not [each for each in limited(unsaid, 2, BUY_AT_MOST).findings if each.code == "none-owned"]


def shown(laid: Layout) -> LayoutResult:
    return result(laid).layouts[0]


def steps(*laid: Layout | None, wanted: int = 9, closed: bool = True) -> Buying:
    """With none bought, one, and so on."""
    verdicts = [Verdict.IMPOSSIBLE if each is None else Verdict.PROVEN for each in laid]
    found = [None if each is None else shown(each) for each in laid]
    return Buying(wanted, tuple(map(Step, range(len(laid)), verdicts, found)), closed)


def test_rows_of_what_buying_brings() -> None:
    asked = limited(replace(courtyard(), cushions=(SQUARE,)), 0, ONLY_OWNED)
    given = steps(None, layout(6), layout(7))
    rows = list(buying_rows(asked, given))
    assert [row[:4] for row in rows] == [
        ("0", "", "", "no layout fits"),
        ("1", "1", "6", "straight"),
        ("2", "2", "7", "straight"),
    ]
    assert [row[4] for row in rows] == ["", "68.00", "136.00"]
    assert {row[6] for row in rows} == {"proven"}
    assert list(buying_lines(asked, given)) == [
        "To buy in the last row: 2 of square.",
        "Proven: buying more, up to 9, brings nothing.",
    ]


def test_what_is_not_proven_is_not_called_so() -> None:
    asked = limited(courtyard(), 0, ONLY_OWNED)
    assert list(buying_lines(asked, steps(layout(5), closed=False))) == [
        "Time ran out: whether up to 9 bought bring more is not proven."
    ]
    assert list(buying_lines(asked, steps(None))) == [
        "Proven: buying, up to 9, brings nothing, since no layout fits then either."
    ]
    stopped = replace(steps(layout(5), closed=False), interrupted=True)
    assert list(buying_lines(asked, stopped)) == ["Stopped by you before every row was reached."]


def test_tables_and_document_tell_the_same() -> None:
    asked = limited(yard((GOOD, 3), (WORN, 2)), 0, ONLY_OWNED)
    stream, given = io.StringIO(), steps(layout(4), layout(6))
    print_fit(console(stream), asked, result(layout(4)), 16, given)
    text = stream.getvalue()
    assert "with no cushion bought, as `--only-owned` asks" in text
    assert "Left over: 1 of square (worn) and 1 of small." in text
    lines = [line.split() for line in text.splitlines()]
    heads = lines.index(["buying", "cushions", "boards"])
    assert lines[heads + 1] == ["up", "to", "bought", "seats", "layout", "cost", "cost", "proof"]
    assert max(map(len, text.splitlines())) <= 80
    document = fit_document(asked, result(layout(4)), given)
    assert document["flags"] == {BUY_KEY: ONLY_OWNED}
    assert document["layouts"][0]["leftovers"] == [
        {"cushion": "square", "count": 1, "own": 5, "used": 4, "conditions": {"worn": 1}},
        {"cushion": "small", "count": 1, "own": 1, "used": 0, "conditions": None},
    ]
    found = document["buying"]
    assert (found["at_most"], found["closed"]) == (9, True)
    assert [(step["at_most"], step["bought"], step["seats"]) for step in found["steps"]] == [(0, 0, 4), (1, 1, 6)]
    assert found["steps"][1]["cushions"] == 68
