"""What clashes, in words: premises with where they are stated, the headline, and names of what is not involved."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from fitter.domain.project import Project
from fitter.domain.requirements import Requirement
from fitter.domain.why import Clash
from fitter.domain.wishes import Shape
from fitter.report.words import Teller, counted, source_place
from rooms.room import Swing
from rooms.survey.wording import listed

_MOST_EDGES = 4
_LONGEST_FILE = 30  # columns
_SHAPES = {Shape.STRAIGHT: "in a straight run", Shape.L: "in an L", Shape.U: "in a U"}
_NAMED = {
    "swing": "the swing of `{}`",
    "obstacle": "`{}`",
    "route": "the route `{}`",
    "stock": "how many there are of cushion `{}`",
    "end": "the {} end",
}
_NOUNS = {
    "least": "the number of seats",
    "most": "the greatest number of seats",
    "buy": "the limit on cushions to buy",
    "shape": "the shape",
    "hand": "the hand",
    "ends": "the ends",
    "corner": "the corner treatment",
    "against": "standing along an edge",
    "legroom": "leg room",
    "span": "the span of rails",
    "backs": "how the backs meet",
    "carry": "the pieces to carry",
}


def premises(project: Project, facts: Sequence[Requirement], tell: Teller) -> list[tuple[str, str]]:
    """Each premise as a clause with where it is stated; the edges of the room are one.

    Args:
        project: what was asked.
        facts: premises of one step.
        tell: writes lengths.
    """
    edges = [fact for fact in facts if fact.id.startswith("edge:")]
    rest = [fact for fact in facts if not fact.id.startswith("edge:")]
    found = [(_edges(project, edges, tell), stated(project, [fact.key for fact in edges]))] if edges else []
    return [*found, *((clause(project, fact), stated(project, _keys(fact))) for fact in rest)]


def _keys(fact: Requirement) -> tuple[str, ...]:
    """The keys that state a fact: how far a run may stand off its edge is told in the same clause as that edge."""
    return (fact.key, "wish.off_wall") if fact.id == "against" else (fact.key,)


def _edges(project: Project, facts: Sequence[Requirement], tell: Teller) -> str:
    edges = [project.room.edge(fact.id.removeprefix("edge:")) for fact in facts]
    if len(edges) > _MOST_EDGES:
        return f"edges {listed([edge.name for edge in edges])} are as taped"
    if len(edges) == 1:
        # Where it lies is stated by the lengths of others.
        return f"edge {edges[0].name} lies where it was taped"
    return f"the edges are as taped: {listed([f'{edge.name} {tell(edge.length)}' for edge in edges])}"


def clause(project: Project, fact: Requirement) -> str:
    """What the fact says; of the seats only how many, since what they take is told by a step of its own."""
    if fact.id == "least":
        many = project.wish.least
        return f"{counted(many, 'seat')} {'is' if many == 1 else 'are'} wanted"
    return fact.says


def stated(project: Project, keys: Iterable[str]) -> str:
    """Where the file states some keys that belong together: `file:line`, `file:first-last`, a flag, or `default`."""
    found = list(dict.fromkeys(keys))
    flags = [project.flags[key] for key in found if key in project.flags]
    if flags:
        return f"`{flags[0]}`"
    lines = sorted(place.line for key in found if (place := source_place(project, key)) is not None)
    if not lines:
        return "default"
    span = str(lines[0]) if lines[0] == lines[-1] else f"{lines[0]}-{lines[-1]}"
    return f"{_file(project)}{span}"


def _file(project: Project) -> str:
    """The file as it is named before its lines: a long path would leave no room for what they state."""
    names = (f"{project.file}:", f"{Path(project.file).name}:", "line ")
    return next(name for name in names if len(name) <= _LONGEST_FILE or name == names[-1])


def headline(project: Project, clash: Clash, tell: Teller) -> str:
    """What was wanted and what is missing, in one sentence.

    Args:
        project: what was asked.
        clash: with its steps, or without.
        tell: writes lengths.
    """
    missing = f"; {clash.missing}" if clash.missing else ""
    return f"Cannot be had: {wanted(project, clash, tell)}{missing}."


def wanted(project: Project, clash: Clash, tell: Teller) -> str:
    """What was wanted of all that clashes, as a noun."""
    ids = {fact.id for fact in clash.facts}
    routes = [route for route in project.room.routes if f"route:{route.name}" in ids]
    ways = listed([f"the route `{route.name}` {tell(route.width)} wide" for route in routes]) if routes else ""
    if routes and not ids & {"least", *_NOUNS}:
        return ways
    seats = counted(project.wish.least, "seat") if "least" in ids or project.wish.least == 1 else "a layout"
    return " ".join(filter(None, (seats, *_wishes(project, ids), f"beside {ways}" if ways else "")))


def _wishes(project: Project, ids: set[str]) -> Iterator[str]:
    wish = project.wish
    if "shape" in ids and wish.shape is not None:
        yield _SHAPES[wish.shape]
    if "corner" in ids and wish.corner is not None:
        yield f"with corner treatment: {wish.corner}"
    if any(fact.startswith("stock:") for fact in ids) or "buy" in ids:
        yield "from the cushions that are there"


def uninvolved(project: Project, facts: Sequence[Requirement]) -> list[str]:
    """Names of facts that are in no clash, the edges of the room as one; doors only that swing into it."""
    still = {f"swing:{opening.name}" for opening in project.room.openings if opening.swing is not Swing.IN}
    facts = [fact for fact in facts if fact.id not in still]
    edges = [fact.id.removeprefix("edge:") for fact in facts if fact.id.startswith("edge:")]
    named = [f"edge {edges[0]}" if len(edges) == 1 else f"edges {listed(edges)}"] if edges else []
    return [*named, *(_noun(fact.id) for fact in facts if not fact.id.startswith("edge:"))]


def _noun(fact: str) -> str:
    kind, _, name = fact.partition(":")
    return _NAMED[kind].format(name) if name and kind in _NAMED else _NOUNS.get(fact, fact)


def helpless(names: Sequence[str]) -> list[str]:
    """Changes that do not help alone, those of the edges as one."""
    edges = [name.split(maxsplit=2)[1:] for name in names if name.startswith("edge ")]
    rest = [name for name in names if not name.startswith("edge ")]
    if not edges:
        return rest
    return [*rest, f"edge{'s' if len(edges) > 1 else ''} {listed([name for name, _ in edges])} {edges[0][1]}"]
