"""Levers on what is wished for: seats, shape, ends, corner, place, and how many cushions are bought."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fitter.domain.layout import Layout
from fitter.domain.owned import BUY_AT_MOST, BUY_KEY
from fitter.domain.project import Project
from fitter.domain.why import Change, Ease
from fitter.domain.wishes import CornerKind, Objective, Shape, Side
from fitter.workflow.cures.lengths import Sized, down_to, round_limit, up_to
from fitter.workflow.cures.lever import Lever, Told
from rooms.lengths import Length

_LEAST_LEGROOM = (12, 300)
"""Common practice: with less nobody sits down."""
_FARTHEST_OFF = (60, 1500)
_MOST_BOUGHT = 24


def wish_levers(project: Project) -> Iterator[Lever]:
    """Every lever on a wish that was made."""
    yield from _seats(project)
    yield from _words(project)
    yield from _ends(project)
    yield from _buying(project)
    yield from _lengths(project)


def counted(number: int, noun: str) -> str:
    """A number with its noun."""
    return f"{number} {noun if number == 1 else noun + 's'}"


def _seats(project: Project) -> Iterator[Lever]:
    wish = project.wish
    key = "wish.seats.least" if "wish.seats.least" in project.places else "wish.seats"

    def fewer(step: int) -> Project:
        return replace(project, wish=replace(wish, least=wish.least - step))

    def told(step: int) -> Told:
        seats = wish.least - step
        says = f"ask for {counted(seats, 'seat')} instead of {wish.least}"
        return Told(says, (Change(key, str(wish.least), str(seats)),))

    if wish.least > 1:
        yield Lever(("least",), Ease.SEATS, "fewer seats", wish.least - 1, fewer, told)


def _words(project: Project) -> Iterator[Lever]:
    """Wishes that are words; each other word is a lever of its own."""
    wish = project.wish
    if wish.shape is not None:
        for shape in (shape for shape in Shape if shape is not wish.shape):
            says = f"build {_a(shape)} instead of {_a(wish.shape)}"
            yield _word(project, "shape", "another shape", says, (str(wish.shape), str(shape)), shape=shape)
    if wish.corner is not None:
        for kind in (kind for kind in CornerKind if kind is not wish.corner):
            says = f"settle the corner by {kind} instead of {wish.corner}"
            yield _word(
                project, "corner", "another corner treatment", says, (str(wish.corner), str(kind)), corner=kind
            )  # fmt: skip
    if wish.hand is not None:
        other = Side.RIGHT if wish.hand is Side.LEFT else Side.LEFT
        says = f"let the short run lie on the {other}"
        yield _word(project, "hand", "the other hand", says, (str(wish.hand), str(other)), hand=other)
    if wish.against is not None:
        names = ", ".join(wish.against)
        before = "edge" if len(wish.against) == len(project.room.edges) else f"[{names}]"
        says = "let it stand free in the room, along no edge"
        free = _word(project, "against", "standing free of the edges", says, (before, "free"), against=None)
        yield replace(free, within=False)


def _ends(project: Project) -> Iterator[Lever]:
    wish = project.wish
    if wish.left_end is wish.right_end is not None:
        says = f"let the ends be of any kind, not only {wish.left_end}"
        yield _word(
            project, "ends", "other ends", says, (str(wish.left_end), "any"), left_end=None, right_end=None
        )  # fmt: skip
        return
    for name, kind in (("left", wish.left_end), ("right", wish.right_end)):
        if kind is not None:
            says = f"let the {name} end be of any kind, not only {kind}"
            lever = _word(
                project, f"ends.{name}", f"another {name} end", says, (str(kind), "any"), **{f"{name}_end": None}
            )
            yield replace(lever, facts=(f"end:{name}",))


def _word(project: Project, key: str, name: str, says: str, words: tuple[str, str], **wishes: object) -> Lever:
    """A lever of one step: another word for a wish."""
    changed = replace(project, wish=replace(project.wish, **wishes))  # type: ignore[arg-type]
    told = Told(says, (Change(f"wish.{key}", *words),))
    return Lever((key,), Ease.ARRANGEMENT, name, 1, lambda step: changed, lambda step: told)


def _a(shape: Shape) -> str:
    return {Shape.STRAIGHT: "a straight run", Shape.L: "an L", Shape.U: "a U"}[shape]


def _buying(project: Project) -> Iterator[Lever]:
    most = project.wish.buy_most
    if most is None or all(kind.price is None for kind in project.cushions):
        return

    def more(step: int) -> Project:
        return replace(project, wish=replace(project.wish, buy_most=most + step))

    def told(step: int) -> Told:
        says = f"buy {counted(most + step, 'cushion')} instead of {most or 'none'}"
        said = project.flags.get(BUY_KEY, "")
        flag = f"{BUY_AT_MOST} {most + step}" if said else ""
        return Told(says, (Change(BUY_KEY, str(most), str(most + step), flag),))

    def bought(layout: Layout) -> int:
        return sum(row.buy for row in layout.purchases) - most

    aim = (Objective.BUY, bought)
    yield Lever(("buy",), Ease.CUSHIONS, "more cushions bought", _MOST_BOUGHT, more, told, aim=aim)


def _lengths(project: Project) -> Iterator[Lever]:
    wish = project.wish

    def legroom(value: Length) -> Project:
        return replace(project, wish=replace(wish, legroom=value))

    def off_wall(value: Length) -> Project:
        return replace(project, wish=replace(wish, off_wall=value))

    says = "leave {after} of leg room instead of {before}"
    sized = Sized("legroom", Ease.OFFSET, "less leg room", says, "wish.legroom", wish.legroom, legroom)
    yield down_to(project, sized, round_limit(project, *_LEAST_LEGROOM))
    if wish.against is not None:
        says = "let the backs stand up to {after} off the edge instead of {before}"
        name = "standing farther off the edge"
        sized = Sized("against", Ease.OFFSET, name, says, "wish.off_wall", wish.off_wall, off_wall)
        mark = project.mark
        before = wish.off_wall.floor_to(mark)
        lever = up_to(project, sized, round_limit(project, *_FARTHEST_OFF))
        yield replace(lever, aim=(Objective.CLOSE, lambda layout: (layout.off_edge - before) // mark))
