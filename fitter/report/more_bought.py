"""What is told of buying more cushions than are owned, step by step."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from fitter.domain.layout import Verdict
from fitter.domain.outcome import LayoutResult
from fitter.domain.owned import Buying, Step
from fitter.domain.project import Project
from fitter.report.entries import Document, plain
from fitter.report.rows import Row, kind
from fitter.report.setting import purchases
from fitter.report.shed import cushions_cost
from fitter.report.words import money
from rooms.survey.wording import listed

# Heads of two lines; those of one stand on the second.
BUYING_HEADS = ("buying\nup to", "\nbought", "\nseats", "\nlayout", "cushions\ncost", "boards\ncost", "\nproof")
BUYING_RIGHT = tuple(BUYING_HEADS[n] for n in (0, 1, 2, 4, 5))


def _boards(shown: LayoutResult) -> Fraction | None:
    return None if shown.boards is None else Fraction(shown.boards.cost, 100)


def buying_rows(project: Project, buying: Buying) -> Iterator[Row]:
    """One row for each step."""
    for step in buying.steps:
        yield _row(project, step)


def _row(project: Project, step: Step) -> Row:
    shown = step.shown
    if shown is None:
        none = "no layout fits" if step.verdict is Verdict.IMPOSSIBLE else "none was found"
        return str(step.most), "", "", none, "", "", _proof(step.verdict)
    costs = (cushions_cost(project, shown.layout), _boards(shown))
    cushions, boards = ("unknown" if cost is None else money(cost) for cost in costs)
    form = kind(shown.layout)
    return str(step.most), str(step.bought), str(shown.layout.seats), form, cushions, boards, _proof(step.verdict)


def _proof(verdict: Verdict) -> str:
    return "proven" if verdict in (Verdict.PROVEN, Verdict.IMPOSSIBLE) else "not proven"


def buying_lines(project: Project, buying: Buying) -> Iterator[str]:
    """What would be bought in the last step, and whether more would help."""
    last = buying.steps[-1]
    if last.shown is not None and last.bought:
        bought = [f"{row.buy} of {row.cushion}" for row in purchases(project, last.shown.layout) if row.buy]
        yield f"To buy in the last row: {listed(bought)}."
    if buying.interrupted:
        yield "Stopped by you before every row was reached."
    elif not buying.closed:
        yield f"Time ran out: whether up to {buying.wanted} bought bring more is not proven."
    elif last.most < buying.wanted:
        more = "buying" if last.most == 0 else "buying more"
        yield f"Proven: {more}, up to {buying.wanted}, brings nothing{_still(last)}."


def _still(last: Step) -> str:
    return "" if last.shown is not None else ", since no layout fits then either"


def buying_entry(project: Project, buying: Buying) -> Document:
    """The same for a document."""
    return {
        "at_most": buying.wanted,
        "closed": buying.closed,
        "interrupted": buying.interrupted,
        "steps": [_step_entry(project, step) for step in buying.steps],
    }


def _step_entry(project: Project, step: Step) -> Document:
    entry: Document = {"at_most": step.most, "outcome": str(step.verdict), "bought": step.bought}
    if step.shown is None:
        return {**entry, "seats": None, "shape": None, "hand": None, "corner": None, "cushions": None, "boards": None}
    layout, costs = step.shown.layout, (cushions_cost(project, step.shown.layout), _boards(step.shown))
    cushions, boards = (None if cost is None else plain(cost) for cost in costs)
    return {
        **entry,
        "seats": layout.seats,
        "shape": str(layout.shape),
        "hand": None if layout.hand is None else str(layout.hand),
        "corner": None if layout.corner is None else str(layout.corner),
        "cushions": cushions,
        "boards": boards,
        "purchases": [
            {"cushion": row.cushion, "used": row.used, "own": row.own, "buy": row.buy}
            for row in purchases(project, layout)
        ],
    }
