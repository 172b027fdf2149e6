"""What an explanation claims, put to the second model: clashes, each of their facts, cures, and one step less."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial
from itertools import combinations

from random_projects import is_skew
from reducing import reduced
from twin import possible

from fitter.checking import check_layout
from fitter.domain.cushions import Cushion, options
from fitter.domain.project import Project
from fitter.domain.why import Clash, Cure, Why
from fitter.project import read_project
from fitter.workflow.cures.curing import levers
from fitter.workflow.cures.explaining import Explainer
from fitter.workflow.cures.lever import Lever
from fitter.workflow.cures.written import with_changes
from rooms.lengths import Length, parse_length
from rooms.moved import edge_moved
from rooms.room import Room, Swing

HAIR = Fraction(1, 100)
"""Marks, by which two right models of a skew room may differ where a fit is exact (see `test_twin`)."""
FAR = Length.inches(600)


def explained(path: str) -> tuple[Project, Why]:
    """The project of a file, and all that is told of why it is impossible."""
    project = read_project(path)
    explainer = Explainer(project, None, partial(with_changes, project))
    return project, explainer.why(explainer.clash())


def surely_possible(project: Project, edges: Room | None = None) -> bool:
    """Whether something fits, by the second model; in a skew room also what fits but for a hair."""
    return possible(project, edges=edges) or (is_skew(project) and possible(project, -HAIR, edges))


def surely_impossible(project: Project, edges: Room | None = None) -> bool:
    """Whether nothing fits, by the second model; in a skew room also what fits to a hair only."""
    return not possible(project, edges=edges) or (is_skew(project) and not possible(project, HAIR, edges))


def is_box(room: Room) -> bool:
    """Whether a room has four square corners, so that each edge bounds it by itself."""
    return len(room.edges) == 4 and all(e.start.x == e.end.x or e.start.y == e.end.y for e in room.edges)


def without_edges(project: Project, gone: Sequence[str]) -> Project | None:
    """The project whose room no longer ends at some edges; None where that is not the same as to move them away."""
    room: Room | None = project.room
    if project.room.routes or not is_box(project.room):
        return None
    if any(door.edge in gone and door.swing is Swing.IN for door in project.room.openings):
        return None
    for name in gone:
        room = edge_moved(room, name, FAR) if room else None
    return room and replace(project, room=room)


def check_clash(project: Project, clash: Clash) -> None:
    """Nothing meets all of its facts, and something meets all of them but any one."""
    ids = [fact.id for fact in clash.facts]
    edges = [edge.name for edge in project.room.edges]
    bare = reduced(project, ids)
    free = without_edges(bare, [name for name in edges if f"edge:{name}" not in ids])
    assert surely_impossible(free or bare, project.room)
    for fact in ids:
        rest = [other for other in ids if other != fact]
        if (less := dropped(project, rest)) is not None:
            assert surely_possible(less, project.room), fact


def dropped(project: Project, rest: Collection[str]) -> Project | None:
    """The project that asks only the rest of a clash; None where that is no project of this kind."""
    less = reduced(project, rest)
    if "against" not in rest:
        # Whatever is within the edges' frames is so in one of those for standing free.
        less = replace(less, wish=replace(less.wish, against=None))
    off = [edge.name for edge in project.room.edges if f"edge:{edge.name}" not in rest]
    return without_edges(less, off) if off else less


def check_cures(project: Project, why: Why) -> None:
    """Each does as it is written, and one step less does not where it is called the smallest."""
    found = levers(project)
    for cure in why.cures:
        changed = with_changes(project, cure.changes)
        assert changed is not None, cure.says
        assert not check_layout(changed, cure.layout), cure.says
        assert surely_possible(changed), cure.says
        lever = lever_of(found, cure)
        if lever is not None and cure.smallest and cure.step > 1:
            less = lever.at(cure.step - 1)
            assert less is None or surely_impossible(less), cure.says


def check_steps(project: Project, clash: Clash) -> None:
    """Each number that is told is tight: at it something fits, one mark or seat beyond it nothing does."""
    ids = [fact.id for fact in clash.facts]
    for step in clash.steps:
        for number in told_numbers(project, step.concludes):
            for value, fits in ((number.value, True), (number.value + number.beyond, False)):
                asked = number.project(value)
                if asked is None:
                    continue
                if number.alone:
                    kind, strict = alone(asked, ids)
                    if not fits:
                        assert surely_impossible(strict, project.room), step.concludes
                    elif kind is not None:
                        assert surely_possible(kind, project.room), step.concludes
                else:
                    assert surely_possible(asked) if fits else surely_impossible(asked), step.concludes


def alone(project: Project, ids: Collection[str]) -> tuple[Project | None, Project]:
    """The project that asks only some facts: one that asks no more than those, and one that asks no less.

    They differ where an edge cannot be taken away by itself, so that the first is None and nothing is claimed, or where
    runs stand along edges but however far off. A route comes with all edges, or where seats have no part in it, with
    none that bounds them.
    """
    strict = reduced(project, ids)
    if all(name.startswith(("route:", "obstacle:")) for name in ids):
        return None, strict
    if any(name.startswith("route:") for name in ids):
        ids = {*ids, *(f"edge:{edge.name}" for edge in project.room.edges)}
    free = strict if "against" in ids else replace(strict, wish=replace(strict.wish, against=None))
    off = [edge.name for edge in project.room.edges if f"edge:{edge.name}" not in ids]
    boundless = (without_edges(bare, off) for bare in (free, strict)) if off else (free, strict)
    kind, less = boundless
    return kind, less or strict


@dataclass(frozen=True)
class Number:
    """A number of a conclusion.

    Args:
        value: in shop marks, or in seats.
        beyond: the next value that is worse.
        alone: whether it is about the facts of the clash only, or about all that is asked.
        project: that asks for so much; None where that is nothing to ask.
    """

    value: int
    beyond: int
    alone: bool
    project: Callable[[int], Project | None]


LENGTH = r"(?:\d+ mm|(?:\d+' )?\d+(?: \d+/\d+)?\"|\d+/\d+\")"
WHOLE = f"(?:.*; with all else that is asked, ({LENGTH}|\\d+))?"


def told_numbers(project: Project, said: str) -> Iterator[Number]:
    """The numbers of a conclusion with what they are about; none where it holds nothing to solve for."""
    mark, wish, room = project.mark, project.wish, project.room

    def marks(text: str) -> int:
        return parse_length(text, project.unit) // mark

    def seats(count: int) -> Project | None:
        return replace(project, wish=replace(wish, least=count, most=None)) if count else None

    def row(length: int) -> Project:
        deep = {option.deck(mark) for option in options(project.cushions)}.pop()
        bench = Cushion("row", mark * length, deep, project.cushions[0].thickness, may_notch=False)
        # Rails between cushions are none between those of a row that is told as one.
        frame = replace(project.frame, max_span=Length.inches(1000), carry=None)
        return replace(project, cushions=(bench,), frame=frame, wish=replace(wish, least=1, most=None))

    def cushions(pitch: int) -> Project:
        kind = project.cushions[0]
        sized = replace(kind, measured=(mark * pitch - kind.ease, *kind.size[1:]), ease_most=None)
        return replace(project, cushions=(sized,))

    def legs(deep: int) -> Project:
        return replace(project, wish=replace(wish, legroom=mark * deep))

    def walk(name: str) -> Callable[[int], Project]:
        def walked(width: int) -> Project:
            routes = tuple(replace(r, width=mark * width) if r.name == name else r for r in room.routes)
            return replace(project, room=replace(room, routes=routes))

        return walked

    if found := re.search(rf"(?:(\d+) seats? finds? a place|make (\d+) seats?) at most{WHOLE}", said):
        yield Number(int(found[1] or found[2]), 1, True, seats)
        if found[3]:
            yield Number(int(found[3]), 1, False, seats)
    elif found := re.search(rf"leaves? ({LENGTH}) of leg room at most{WHOLE}", said):
        yield Number(marks(found[1]), 1, True, legs)
        if found[2]:
            yield Number(marks(found[2]), 1, False, legs)
    elif "not even one seat finds a place" in said:
        yield Number(0, 1, True, seats)
    elif found := re.search(rf"takes ({LENGTH}) or less", said):
        yield Number(marks(found[1]), 1, False, cushions)
    elif found := re.search(rf"the route `(.+?)` is ({LENGTH}) wide at most{WHOLE}", said):
        yield Number(marks(found[2]), 1, True, walk(found[1]))
        if found[3]:
            yield Number(marks(found[3]), 1, False, walk(found[1]))
    elif found := re.search(rf"(?:can be ({LENGTH}) long at most|({LENGTH}) (?:is|are) left for){WHOLE}", said):
        yield Number(marks(found[1] or found[2]), 1, True, row)
        if found[3]:
            yield Number(marks(found[3]), 1, False, row)


def lever_of(found: Sequence[Lever], cure: Cure) -> Lever | None:
    """The lever that a single cure is a step of; None for a pair."""
    fitting = [lever for lever in found if lever.facts == cure.facts and cure.step <= lever.steps]
    return next((lever for lever in fitting if lever.at(cure.step) and lever.told(cure.step).says == cure.says), None)


def disjoint(why: Why) -> bool:
    """Whether no two clashes are the same, and none holds another."""
    sets = [{fact.id for fact in clash.facts} for clash in why.clashes]
    return all(not a <= b and not b <= a for a, b in combinations(sets, 2))
