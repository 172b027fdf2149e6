"""How cushions in the shed have kept: read in both forms, and told where it contradicts what is owned."""

from __future__ import annotations

import pytest

from fitter.domain.cushions import Condition, Cushion
from fitter.domain.findings import Finding
from fitter.project import ProjectError, read_project

YARD = """\
units: in
room:
  sides: {{AB: 100, BC: 80, CD: 100, DA: 80}}
  turns: {{A: left, B: left}}
cushions:
  - {{name: seat, size: [24, 24, 5], {said}}}
"""


def cushion(said: str) -> Cushion:
    return read_project("yard.yaml", YARD.format(said=said)).cushions[0]


def mistake(said: str) -> Finding:
    with pytest.raises(ProjectError) as caught:
        cushion(said)
    (found,) = caught.value.findings
    assert found.place is not None
    assert found.place.line == 6
    return found


@pytest.mark.parametrize(
    ("said", "own", "conditions"),
    [
        ("own: 4", 4, ()),
        ("own: 4, condition: worn", 4, ((Condition.WORN, 4),)),
        ("own: 4, condition: {poor: 1, good: 3}", 4, ((Condition.GOOD, 3), (Condition.POOR, 1))),
        ("condition: {good: 3, worn: 2, poor: 0}", 5, ((Condition.GOOD, 3), (Condition.WORN, 2))),
        ("own: 0, condition: good", 0, ()),
    ],
)
def test_both_forms(said: str, own: int, conditions: tuple[tuple[Condition, int], ...]) -> None:
    found = cushion(said)
    assert (found.own, found.conditions) == (own, conditions)


@pytest.mark.parametrize(
    ("said", "code", "message", "help"),
    [
        ("own: 4, condition: {good: 3, worn: 2}", "more-than-owned", "3 good + 2 worn make 5, and `own` says 4", "own"),
        ("own: 4, condition: {good: 3}", "fewer-than-owned", "3 good make 3, and `own` says 4", "`worn` or `poor`"),
        ("condition: worn", "condition-not-owned", "no `own` says how many", "write `own`"),
        ("own: 4, condition: shabby", "unknown-word", "`shabby` means nothing here", "`good`, `worn` or `poor`"),
        ("own: 4, condition: {god: 4}", "unknown-word", "unknown condition `god`", "did you mean `good`?"),
        ("own: 4, condition: {good: 4, Good: 1}", "named-twice", "`good` is there twice", "keep one"),
        ("own: 4, condition: {}", "empty-value", "`condition` names none", "good: 3"),
        ("own: 4, condition: [good]", "wrong-kind", "a list was found", "good: 3"),
        ("own: 4, condition: {good: -1}", "count-out-of-range", "`-1` is not between", "in that range"),
    ],
)  # fmt: skip
def test_contradictions(said: str, code: str, message: str, help: str) -> None:
    found = mistake(said)
    assert found.code == code
    assert message in found.message
    assert help in found.help
    assert found.key.startswith("cushions.0.condition")
