"""What clashes cannot hold together; what a clash leaves out does not matter."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from answers import answer
from random_projects import projects

from fitter.domain.frame import Carpentry
from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.requirements import requirements
from fitter.domain.wishes import Side, Wish
from fitter.model import solve
from rooms.lengths import ZERO, Length
from rooms.room import Room, Swing


def reduced(project: Project, clash: tuple[str, ...]) -> Project:
    """The project that asks nothing but what clashes; its outline and its edges to stand against stay."""
    cushions = tuple(
        cushion if f"stock:{cushion.name}" in clash else replace(cushion, price=Fraction(1))
        for cushion in project.cushions
    )
    frame = project.frame if "span" in clash else replace(project.frame, max_span=Length.inches(1000))
    if "backs" not in clash:
        frame = replace(frame, carpentry=Carpentry())
    return replace(
        project,
        room=_room(project.room, clash),
        wish=_wish(project.wish, clash),
        cushions=cushions,
        frame=frame,
    )


def _room(room: Room, clash: tuple[str, ...]) -> Room:
    return replace(
        room,
        openings=tuple(
            opening if f"swing:{opening.name}" in clash else replace(opening, swing=Swing.OUT)
            for opening in room.openings
        ),
        obstacles=tuple(obstacle for obstacle in room.obstacles if f"obstacle:{obstacle.name}" in clash),
        routes=tuple(route for route in room.routes if f"route:{route.name}" in clash),
    )


def _wish(wish: Wish, clash: tuple[str, ...]) -> Wish:
    kept = {hand: "ends" in clash or f"end:{hand}" in clash for hand in (Side.LEFT, Side.RIGHT)}
    return replace(
        wish,
        least=wish.least if "least" in clash else 1,
        most=wish.most if "most" in clash else None,
        shape=wish.shape if "shape" in clash else None,
        hand=wish.hand if "hand" in clash else None,
        left_end=wish.left_end if kept[Side.LEFT] else None,
        right_end=wish.right_end if kept[Side.RIGHT] else None,
        corner=wish.corner if "corner" in clash else None,
        buy_most=wish.buy_most if "buy" in clash else None,
        legroom=wish.legroom if "legroom" in clash else ZERO,
    )


def clash_holds(seed: int) -> None:
    """A clash is told in the words of the project, is impossible by itself, and needs each of its facts.

    Where a fact is dropped, another clash may come to light, which then must name an edge that the first did not.
    """
    project, found = projects(seed), answer(seed)
    assert found.verdict is Verdict.IMPOSSIBLE
    known = [requirement.id for requirement in requirements(project)]
    assert found.clash
    assert set(found.clash) <= set(known)
    assert solve(reduced(project, found.clash)).verdict is Verdict.IMPOSSIBLE
    for fact in found.clash:
        if fact != "against" and not fact.startswith("edge:"):
            rest = tuple(other for other in found.clash if other != fact)
            without = solve(reduced(project, rest))
            assert without.layout is not None or not set(without.clash) <= set(rest), fact


def test_clashes_are_sound_and_minimal() -> None:
    clashing = [seed for seed in range(16) if answer(seed).layout is None]
    assert len(clashing) > 1
    for seed in clashing:
        clash_holds(seed)


@pytest.mark.sweep
@pytest.mark.parametrize("seed", range(100, 200))
def test_clashes_are_sound_and_minimal_wide(seed: int) -> None:
    if answer(seed).layout is None:
        clash_holds(seed)
