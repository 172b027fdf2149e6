"""The random sample feels every rule: for each there is a project whose answer changes when the rule is let go."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from random_projects import ORDER, projects
from test_twin import twin
from twin import best_answer

from fitter.domain.cushions import Cushion
from fitter.domain.frame import Carpentry, Section
from fitter.domain.project import Project
from rooms.lengths import ZERO, Length
from rooms.room import Height, Obstacle, Swing

Change = Callable[[Project], Project]
FAR = Length.inches(200)


def room(**new: object) -> Change:
    return lambda project: replace(project, room=replace(project.room, **new))


def wish(**new: object) -> Change:
    return lambda project: replace(project, wish=replace(project.wish, **new))


def frame(**new: object) -> Change:
    return lambda project: replace(project, frame=replace(project.frame, **new))


def each_kind(change: Callable[[Cushion], Cushion]) -> Change:
    return lambda project: replace(project, cushions=tuple(map(change, project.cushions)))


def without(height: Height) -> Change:
    def change(project: Project) -> Project:
        return room(obstacles=tuple(o for o in project.room.obstacles if o.height is not height))(project)

    return change


def each_obstacle(change: Callable[[Obstacle], Obstacle]) -> Change:
    return lambda project: room(obstacles=tuple(map(change, project.room.obstacles)))(project)


def no_swings(project: Project) -> Project:
    return room(openings=tuple(replace(opening, swing=Swing.NONE) for opening in project.room.openings))(project)


def thin_posts(project: Project) -> Project:
    return frame(post=Section("thin", project.frame.rail.thickness, project.frame.rail.thickness))(project)


def standing(obstacle: Obstacle) -> Obstacle:
    return replace(obstacle, height=Height.FULL) if obstacle.height is Height.LOW else obstacle


@pytest.mark.parametrize(
    ("seed", "change"),
    [
        pytest.param(3, without(Height.LOW), id="feet keep off low things"),
        pytest.param(49, each_obstacle(standing), id="seats pass over low things"),
        pytest.param(17, without(Height.REACH), id="reach"),
        pytest.param(17, each_obstacle(lambda o: replace(o, clear=ZERO)), id="clear"),
        pytest.param(30, no_swings, id="swings"),
        pytest.param(3, room(routes=()), id="routes"),
        pytest.param(37, room(tolerance=ZERO), id="tolerance"),
        pytest.param(17, wish(legroom=ZERO), id="leg room"),
        pytest.param(30, wish(off_wall=FAR), id="off wall"),
        pytest.param(49, wish(left_end=None, right_end=None), id="ends"),
        pytest.param(3, wish(corner=None), id="corner"),
        pytest.param(21, wish(most=None), id="most seats"),
        pytest.param(3, wish(prefer=ORDER), id="order"),
        pytest.param(37, each_kind(lambda kind: replace(kind, price=Fraction(1))), id="stock"),
        pytest.param(37, each_kind(lambda kind: replace(kind, own=None)), id="owned ones"),
        pytest.param(37, each_kind(lambda kind: replace(kind, may_turn=True)), id="turning"),
        pytest.param(82, each_kind(lambda kind: replace(kind, may_notch=True)), id="notching"),
        pytest.param(37, each_kind(lambda kind: replace(kind, ease=ZERO)), id="ease"),
        pytest.param(37, lambda project: replace(project, cushions=project.cushions[:1]), id="several kinds"),
        pytest.param(37, frame(max_span=FAR), id="span"),
        pytest.param(17, thin_posts, id="posts"),
        pytest.param(31, frame(overhang=ZERO), id="overhang"),
        pytest.param(9, frame(carpentry=Carpentry()), id="backs that do not meet"),
        pytest.param(31, wish(buy_most=None), id="bought at most"),
    ],
)
def test_letting_a_rule_go_changes_an_answer(seed: int, change: Change) -> None:
    project = projects(seed)
    assert best_answer(change(project)) != twin(project)
