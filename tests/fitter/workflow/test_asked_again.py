"""Questions about nearly the same project: what was learned of one never lets another pass."""

from __future__ import annotations

import json
from dataclasses import replace

from fitter.checking import check_layout
from fitter.domain.project import Project
from fitter.domain.wishes import Shape
from fitter.model import any_layout
from fitter.project import read_project
from fitter.workflow.cures.questions import Questions
from rooms.lengths import Length

DATA = {
    "units": "in",
    "room": {
        "tolerance": "0",
        "corners": {"A": ["0", "0"], "B": ["130", "0"], "C": ["130", "96"], "D": ["0", "96"]},
        "openings": [
            {"name": "door", "edge": "DA", "from": "6", "width": "40"},
            {"name": "gate", "edge": "BC", "from": "50", "width": "40"},
            {"name": "gap", "edge": "CD", "from": "40", "width": "40"},
        ],
        "obstacles": [{"name": "tub", "at": ["110", "4"], "size": ["8", "8"], "clear": "30"}],
        "routes": [
            {"name": "across", "from": "door", "to": "gate", "width": "80"},
            {"name": "out", "from": "gap", "to": "gate", "width": "40"},
        ],
    },
    "cushions": [{"name": "seat", "size": ["24", "22", "4"], "price": "40"}],
    "wish": {"seats": {"least": "3"}, "legroom": "0", "off_wall": "2"},
}
PROJECT = read_project("again.yaml", json.dumps(DATA))


def narrower(route: int, inches: int) -> Project:
    routes = list(PROJECT.room.routes)
    routes[route] = replace(routes[route], width=Length.inches(inches))
    return replace(PROJECT, room=replace(PROJECT.room, routes=tuple(routes)))


def nearer(inches: int) -> Project:
    (tub,) = PROJECT.room.obstacles
    tub = replace(tub, clear=Length.inches(inches))
    return replace(PROJECT, room=replace(PROJECT.room, obstacles=(tub,)))


ASKED = [
    ("route:across", narrower(0, 20), 20),
    ("route:out", narrower(1, 20), 20),
    *(("route:across", narrower(0, n), n) for n in (75, 28, 60)),
    ("route:out", narrower(1, 28), 28),
    *(("obstacle:tub", nearer(n), n) for n in (28, 0, 20)),
    *(("route:across", narrower(0, n), n) for n in (72, 20)),
]


def test_clearances_of_several_things_are_kept_apart() -> None:
    """Two routes and a thing that take the same values, one after another: each answer is that of a fresh question."""
    questions, answers = Questions(PROJECT), set()
    for fact, project, keep in ASKED:
        found = questions.keeping(fact, project, Length.inches(keep))
        assert (found is None) == (any_layout(project) is None), (fact, keep)
        assert found is None or not check_layout(project, found)
        answers.add((fact, found is None))
    assert {("route:across", False), ("route:across", True), ("route:out", True)} <= answers


def test_what_was_found_for_one_project_is_checked_for_the_next() -> None:
    """Several projects by the same questions, against fresh ones."""
    projects = [project for _, project, _ in ASKED[::3]]
    projects += [replace(p, wish=replace(p.wish, least=n)) for p in projects[:2] for n in (1, 5)]
    projects += [replace(p, wish=replace(p.wish, shape=Shape.L)) for p in projects[:1]]
    questions = Questions(PROJECT)
    for project in projects:
        found = questions.layout(project)
        assert (found is None) == (any_layout(project) is None)
        assert found is None or not check_layout(project, found)
