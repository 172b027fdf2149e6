"""What is told of the shed: how many cushions may be bought, what is left over, and what buying costs."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from fitter.domain.cushions import Condition, Conditions
from fitter.domain.layout import Layout
from fitter.domain.owned import BUY_KEY, shed
from fitter.domain.project import Project
from fitter.report.setting import purchases
from fitter.report.words import counted, source_line
from rooms.survey.wording import listed


def limit_line(project: Project) -> str:
    """How many cushions may be bought, and what says so; empty for any number."""
    most = project.wish.buy_most
    if most is None:
        return ""
    told = "no cushion" if most == 0 else f"at most {counted(most, 'cushion')}"
    return f"with {told} bought, as {source_line(project, BUY_KEY)} asks"


def shed_lines(project: Project, layout: Layout) -> Iterator[str]:
    """What stays in the shed, and which cushions are used that are no longer good."""
    rows = shed(project, layout)
    over = [_counted(row.over, row.cushion, row.left) for row in rows if row.over]
    if over:
        yield f"Left over: {listed(over)}."
    elif rows and project.wish.buy_most == 0:
        yield "Nothing is left over."
    old = [
        f"{count} {condition} of {row.cushion}"
        for row in rows
        for condition, count in row.conditions
        if condition is not Condition.GOOD
    ]
    if old:
        yield f"Used although no longer good: {listed(old)}."


def _counted(count: int, cushion: str, conditions: Conditions) -> str:
    if not conditions:
        return f"{count} of {cushion}"
    if len(conditions) == 1:
        return f"{count} of {cushion} ({conditions[0][0]})"
    return f"{count} of {cushion} ({', '.join(f'{many} {condition}' for condition, many in conditions)})"


def leftover_entries(project: Project, layout: Layout) -> list[dict[str, Any]]:
    """The same for a document."""
    return [
        {
            "cushion": row.cushion,
            "count": row.over,
            "own": row.own,
            "used": row.used,
            "conditions": {str(condition): count for condition, count in row.left} or None,
        }
        for row in shed(project, layout)
        if row.over
    ]


def cushions_cost(project: Project, layout: Layout) -> Fraction | None:
    """What the cushions to buy cost; None where a price is not known."""
    total = Fraction(0)
    for row in purchases(project, layout):
        if row.cost is None:
            return None
        total += row.cost
    return total
