"""Explanations in a process of their own, what they lose when they are stopped, and their steps against arithmetic."""

from __future__ import annotations

from dataclasses import replace

import pytest
from impossible import EXAMPLES

from fitter.domain.owned import BUY_KEY
from fitter.domain.project import Project
from fitter.domain.why import Change, Clash, Sought
from fitter.project import read_project
from fitter.workflow.cures.explaining import Explainer
from fitter.workflow.cures.written import with_changes
from fitter.workflow.explaining import Listener, explained
from rooms.lengths import Length

LANDING = read_project(str(EXAMPLES / "landing.yaml"))
CLASH = ("edge:AB", "edge:BC", "edge:CD", "edge:DA", "least", "shape")


def inches(count: str) -> Length:
    return Length.inches(count)


def stopped(known: object) -> None:
    raise KeyboardInterrupt


def row(project: Project) -> tuple[Length, Length]:
    """What a straight row may take along edge AB of the landing, and what its cushions take, by hand."""
    ends = project.frame.open_end_thickness * 2
    free = inches("74") - project.room.tolerance * 2 - ends
    return free, inches("97/4") * project.wish.least


@pytest.mark.parametrize(("least", "tolerance"), [(3, "1/4"), (3, "0"), (4, "1/2")])
def test_steps_of_a_row_add_up(least: int, tolerance: str) -> None:
    room = replace(LANDING.room, tolerance=inches(tolerance))
    project = replace(LANDING, room=room, wish=replace(LANDING.wish, least=least))
    clash = Explainer(project).clash(CLASH)
    free, needed = row(project)
    assert clash.gap == (needed - free) // project.mark
    assert len(clash.steps) == 3
    assert all(len(step.premises) and step.concludes for step in clash.steps)
    assert ("tolerance" in [fact.id for fact in clash.steps[1].premises]) is (tolerance != "0")


def test_the_child_tells_the_clash_and_the_first_cures_survive_a_stop() -> None:
    heard: list[Clash] = []
    tried: list[str] = []

    def trying(name: str) -> None:
        tried.append(name)
        if len(tried) == 3:
            raise KeyboardInterrupt

    found = explained(LANDING, CLASH, listener=Listener(heard.append, trying))
    assert found.interrupted
    assert found.why is not None
    assert list(found.why.clashes) == heard
    assert found.why.sought is Sought.PART
    assert [cure.says for cure in found.why.cures] == ["ask for 2 seats instead of 3"]
    assert found.why.spared is not None


def test_a_stop_at_once_keeps_the_clash() -> None:
    found = explained(LANDING, CLASH, listener=Listener(stopped))
    assert found.interrupted
    assert found.why is not None
    assert found.why.clashes[0].missing == '2 1/4" are missing'
    assert found.why.cures == ()


def test_only_the_clash_where_nothing_else_is_asked() -> None:
    found = explained(LANDING, CLASH, cured=False, brief=True)
    assert found.why is not None
    assert (found.why.sought, found.why.cures, found.why.spared) == (Sought.NOT, (), None)


def test_no_time_at_all_is_no_answer_and_no_error() -> None:
    found = explained(LANDING, CLASH, 1e-9)
    assert not found.interrupted
    assert found.why is None


def test_changes_are_read_with_all_checks_of_the_file() -> None:
    fewer = Change("wish.seats.least", "3", "2")
    changed = with_changes(LANDING, [fewer])
    assert changed is not None
    assert changed.wish.least == 2
    assert with_changes(LANDING, [replace(fewer, after="-2")]) is None
    flagged = replace(LANDING, flags={BUY_KEY: "--only-owned"}, wish=replace(LANDING.wish, buy_most=0))
    kept = with_changes(flagged, [fewer])
    assert kept is not None
    assert kept.wish.buy_most == 0
    bought = with_changes(flagged, [Change(BUY_KEY, "0", "3", "--buy-at-most 3")])
    assert bought is not None
    assert bought.wish.buy_most == 3
