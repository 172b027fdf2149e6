"""Why no layout fits, in one sentence and with the lines of the file that it rests on."""

from __future__ import annotations

from fitter.domain.outcome import Blocked, FitResult
from fitter.domain.project import Project
from fitter.domain.requirements import Requirement
from fitter.report.words import Teller, source_line
from rooms.survey.wording import listed

_MOST_EDGES = 4
# Wishes that take more than one seat to meet.
_SHAPED = ("shape", "hand", "corner")


def reason(project: Project, result: FitResult, tell: Teller) -> str:
    """One sentence that names what cannot hold together.

    Args:
        project: what was asked.
        result: with a clash.
        tell: writes lengths.

    Returns:
        A sentence with its full stop.
    """
    if result.blocked:
        return f"No layout fits: {_blocked(project, result.blocked[0], tell)}."
    facts = [fact for fact in result.clash if not _is_edge(fact)]
    if project.wish.least == 1 and not any(fact.id in _SHAPED for fact in facts):
        # One seat is the least that any layout has, so the room holds nothing at all.
        rest = [fact.says for fact in facts if fact.id != "least"]
        return f"No layout fits: {'; '.join([_not_one(project, tell), *_edges(project, result.clash, tell), *rest])}."
    clauses = [*_edges(project, result.clash, tell), *(fact.says for fact in facts)]
    if not clauses:
        return f"No layout fits: {project.wish.least} seats find no place in the room."
    if len(clauses) == 1:
        return f"No layout fits: {clauses[0]}; this cannot be met."
    return f"No layout fits: {'; '.join(clauses)}; these cannot all hold."


def _is_edge(fact: Requirement) -> bool:
    return fact.id.startswith("edge:")


def _not_one(project: Project, tell: Teller) -> str:
    """That no cushion finds a place, with its width and depth."""
    kinds = [f"`{cushion.name}` ({' × '.join(map(tell, cushion.size[:2]))})" for cushion in project.cushions]
    if len(kinds) == 1:
        return f"not even one seat of cushion {kinds[0]} finds a place"
    return f"not even one seat finds a place, neither of cushion {' nor of '.join(kinds)}"


def _edges(project: Project, clash: tuple[Requirement, ...], tell: Teller) -> list[str]:
    """The edges of a clash as one clause, so that four walls do not drown the rest."""
    edges = [project.room.edge(fact.id.removeprefix("edge:")) for fact in clash if _is_edge(fact)]
    if not edges:
        return []
    if len(edges) > _MOST_EDGES:
        return [f"{len(edges)} edges of the room are as they are"]
    if len(edges) == 1:
        return [f"edge {edges[0].name} is {tell(edges[0].length)} long"]
    return [f"the edges are {listed([f'{edge.name} {tell(edge.length)}' for edge in edges])}"]


def _blocked(project: Project, blocked: Blocked, tell: Teller) -> str:
    asked = f"the route `{blocked.route}` is to stay open {tell(blocked.asked)} wide"
    if not blocked.clear:
        return f"{asked}, and no way leads through the room even with nothing in it"
    gap = listed([_thing(project, name) for name in dict.fromkeys(blocked.between)])
    where = f"between {gap}" if len(set(blocked.between)) > 1 else f"at {gap}"
    return f"{asked}, and even without furniture only {tell(blocked.clear)} is left {where}"


def _thing(project: Project, name: str) -> str:
    return f"edge {name}" if any(edge.name == name for edge in project.room.edges) else f"`{name}`"


def clauses(project: Project, result: FitResult, tell: Teller) -> list[str]:
    """What cannot hold together, in as few clauses as tell it: a blocked route, or the edges, then each other fact.

    Args:
        project: what was asked.
        result: with a clash.
        tell: writes lengths.
    """
    if result.blocked:
        return [_blocked(project, result.blocked[0], tell)]
    rest = [fact.says for fact in result.clash if not _is_edge(fact)]
    return [*_edges(project, result.clash, tell), *rest]


def grounds(project: Project, result: FitResult) -> tuple[tuple[str, str], ...]:
    """Each clause of a clash with the place in the file that states it, or `default`."""
    return tuple((fact.says, source_line(project, fact.key)) for fact in result.clash)
