"""Whether one project asks no more than another, so that each answer to the other bounds its own.

`less_asked(q, p)` tells for how many of the leading values of an answer q is no worse off than p: the objectives in
their order, then what equal answers are ordered by. It holds to this: every layout of p is, in the same place or in
one that p's checks cannot tell from it, a layout of q, and its leading values are no worse there. Then the best answer
to q is no worse than that to p in the order of those values, and so is the best one to any project between the two.

Two projects are compared field by field; each field that differs is looked up in `_RULES`, and one without a rule ends
the comparison (0). A rule may look at both whole projects.

- *Less is asked* of widths of routes, leg room, clear distances, radii, the tolerance, the fewest seats, the thickness
  of ends; *more is given* with the distance from the edge, the most seats, cushions owned or bought, the span, the
  longest piece. Each of these stands in one requirement, which then allows more layouts. Owned cushions also make a
  layout cheaper, never dearer.
- Ends of routes are widened, by more for a wider route: see `route_ends`.
- A longer span lets a line stand on fewer posts. Where as many are needed at both ends, every way to stand them stays
  one; so posts before lengths are no worse, lengths before posts may be, and so may boards, which posts move with.
- Carpentry, boards and the saw change nothing but what boards cost, so all that comes before money stays.
- Rooms and modules: see `larger_room` and `smaller_modules`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, is_dataclass
from fractions import Fraction
from functools import cached_property

from fitter.domain.project import Project
from fitter.domain.wishes import Objective
from fitter.model.encoding import cents
from fitter.model.larger_room import holds_all
from fitter.model.route_ends import ends_follow
from fitter.model.sizes import sizes
from fitter.model.smaller_modules import still_stands
from rooms.lengths import Length

WHOLE = 1000
"""So many values that every one is meant."""

_APART = ("title", "file", "note", "places", "findings", "flags")
"""Fields of a project that say nothing of the layout."""


def less_asked(q: Project, p: Project) -> int:
    """For how many leading values of an answer q is no worse off than p.

    Args:
        q: that may ask less.
        p: that may ask more; in the same units, with the same order of objectives.

    Returns:
        0 if nothing is known of the two, or p asks less somewhere; `WHOLE` if q is no worse off in anything.
    """
    pair = _Pair(q, p)
    return min((pair.rule(path)(pair, new, old) for path, new, old in pair.changes), default=WHOLE)


@dataclass(frozen=True)
class _Pair:
    q: Project
    p: Project

    @cached_property
    def changes(self) -> tuple[tuple[str, object, object], ...]:
        """Each field that differs, with the value in q and in p."""
        return tuple(
            change
            for field in fields(Project)
            if field.name not in _APART
            for change in _changes(field.name, getattr(self.q, field.name), getattr(self.p, field.name))
        )

    def rule(self, path: str) -> _Rule:
        """What to think of a change; of one that nothing is known of, the worst."""
        return next((rule for pattern, rule in _RULES if re.fullmatch(pattern, path)), _unknown)

    def before(self, *objectives: Objective) -> int:
        """How many objectives that count come before the first of some; money counts where anything has a price."""
        bare = not self.boards and all(kind.price is None for kind in self.q.cushions)
        order = [aim for aim in self.q.wish.prefer if aim is not Objective.MONEY or not bare]
        return min((order.index(objective) for objective in objectives if objective in order), default=WHOLE)

    @cached_property
    def boards(self) -> bool:
        """Whether boards count in the money to spend."""
        return any(board.price is not None for board in self.q.shop.boards)

    @cached_property
    def money(self) -> int:
        """How many values stay as they are where nothing but the cost of boards changes."""
        if not self.boards or self.q.frame.carry is not None:
            return WHOLE
        return self.before(Objective.MONEY, Objective.POSTS, Objective.LENGTHS)

    @cached_property
    def same_sizes(self) -> bool:
        """Whether the layout model computes with the same sizes, whatever they come from."""
        one, other = sizes(self.q), sizes(self.p)
        alike = [(s.pitch, s.deck, s.seats, s.notch, s.angle) for s in one.options] == [
            (s.pitch, s.deck, s.seats, s.notch, s.angle) for s in other.options
        ]
        rest = ("mark", "post", "rail", "back", "ends", "legroom", "span", "overhang", "carried")
        return alike and all(getattr(one, name) == getattr(other, name) for name in rest)


_Rule = Callable[[_Pair, object, object], int]


def _changes(path: str, new: object, old: object) -> Iterator[tuple[str, object, object]]:
    """Fields below that differ; a tuple whose length changed differs as a whole."""
    if new == old:
        return
    if is_dataclass(new) and type(new) is type(old) and not isinstance(new, Length):
        for field in fields(new):
            yield from _changes(f"{path}.{field.name}", getattr(new, field.name), getattr(old, field.name))
    elif isinstance(new, tuple) and isinstance(old, tuple) and len(new) == len(old):
        for number, (one, other) in enumerate(zip(new, old, strict=True)):
            yield from _changes(f"{path}.{number}", one, other)
    else:
        yield path, new, old


def _unknown(pair: _Pair, new: object, old: object) -> int:
    return 0


def _at_most(pair: _Pair, new: object, old: object) -> int:
    """Less is asked with a smaller number."""
    return WHOLE if _below(new, old) else 0


def _at_least(pair: _Pair, new: object, old: object) -> int:
    """More is given with a larger number."""
    return WHOLE if _below(old, new) else 0


def _below(one: object, other: object) -> bool:
    return type(one) is type(other) and one is not None and bool(one <= other)  # type: ignore[operator]


def _route(pair: _Pair, new: object, old: object) -> int:
    return WHOLE if _below(new, old) and ends_follow(pair.q.room, pair.p.room) else 0


def _span(pair: _Pair, new: object, old: object) -> int:
    """A longer span: posts are no more, and where they are as many, so are lengths; boards may cost more."""
    if pair.same_sizes:
        return WHOLE
    if not _below(old, new):
        return 0
    first = [Objective.MONEY] if pair.boards and pair.q.frame.carry is None else []
    posts, lengths = pair.before(Objective.POSTS), pair.before(Objective.LENGTHS)
    return min(pair.before(*first), lengths if lengths < posts else WHOLE)


def _end(pair: _Pair, new: object, old: object) -> int:
    """Thinner ends: all the rest stays, but for pieces that are carried with them."""
    whole = WHOLE if pair.q.frame.carry is None else pair.before(Objective.POSTS, Objective.LENGTHS)
    return min(pair.money, whole) if _below(new, old) else 0


def _carried(pair: _Pair, new: object, old: object) -> int:
    return pair.before(Objective.POSTS, Objective.LENGTHS) if _below(old, new) else 0


def _price(pair: _Pair, new: object, old: object) -> int:
    """A cushion that costs less."""
    return WHOLE if _below(new, old) else pair.before(Objective.MONEY)


def _board_price(pair: _Pair, new: object, old: object) -> int:
    """Boards that cost less: what comes before money stays, and where money comes before posts so does the rest."""
    return WHOLE if _below(new, old) and money_first(pair.q) else pair.money


def money_first(project: Project) -> bool:
    """Whether posts stand where boards cost least, so that no choice but the price decides about them."""
    order = project.wish.prefer
    if Objective.MONEY not in order:
        return False
    return order.index(Objective.MONEY) < min(order.index(Objective.POSTS), order.index(Objective.LENGTHS))


def _boards_only(pair: _Pair, new: object, old: object) -> int:
    """What changes nothing but the cost of boards."""
    meet = pair.q.frame.backs_meet == pair.p.frame.backs_meet
    return pair.money if meet and pair.same_sizes else 0


def _saw(pair: _Pair, new: object, old: object) -> int:
    """Less for the saw: every plan of boards stays one, and costs no more."""
    if not pair.same_sizes:
        return 0
    return WHOLE if _below(new, old) and money_first(pair.q) else pair.money


def _on_hand(pair: _Pair, new: object, old: object) -> int:
    """More or longer boards for the same money."""
    if not pair.same_sizes:
        return 0
    return WHOLE if _below(old, new) and money_first(pair.q) else pair.money


def _nothing(pair: _Pair, new: object, old: object) -> int:
    return WHOLE


def _room(pair: _Pair, new: object, old: object) -> int:
    """Corners that lie elsewhere, and obstacles that do; all of them are looked at together."""
    return WHOLE if holds_all(pair.q, pair.p) else 0


def _modules(pair: _Pair, new: object, old: object) -> int:
    """Less ease or overhang."""
    if pair.same_sizes:
        return pair.money
    if not still_stands(pair.q, pair.p):
        return 0
    return min(pair.money, pair.before(Objective.LENGTHS))


def price_change(q: Project, p: Project) -> tuple[int, int] | None:
    """The only price that differs, in cents in q and in p, where the money of any choice is a straight line over it.

    A choice here is a layout with its posts and its boards. So the least money of all choices is concave over the
    price; that of boards only where posts follow it, since else they are chosen first.
    """
    changes = _Pair(q, p).changes
    if len(changes) != 1:
        return None
    path, new, old = changes[0]
    single = re.fullmatch(r"cushions\.\d+\.price", path) or (
        re.fullmatch(r"shop\.boards\.\d+\.price", path) and q.frame.carry is None and money_first(q)
    )
    if not single or not isinstance(new, Fraction) or not isinstance(old, Fraction):
        return None
    return cents(new), cents(old)


_RULES: tuple[tuple[str, _Rule], ...] = (
    (r"room\.routes\.\d+\.width", _route),
    (r"room\.tolerance", _route),
    (r"room\.obstacles\.\d+\.(clear|radius)", _at_most),
    (r"room\.(corners|edges|obstacles)\.\d+\..*", _room),
    (r"room\.slope\..*", _boards_only),
    (r"wish\.(least|legroom)", _at_most),
    (r"wish\.(most|off_wall|buy_most)", _at_least),
    (r"cushions\.\d+\.own", _at_least),
    (r"cushions\.\d+\.price", _price),
    (r"cushions\.\d+\.(thickness|back\..*|measured\.2)", _boards_only),
    (r"cushions\.\d+\.ease", _modules),
    (r"frame\.overhang", _modules),
    (r"frame\.max_span", _span),
    (r"frame\.(arm|open_end)_thickness", _end),
    (r"frame\.carry\.longest", _carried),
    (r"frame\.(carry\.way|fills\..*)", _nothing),
    (r"frame\.carpentry\..*", _boards_only),
    (r"shop\.(kerf|trim)", _saw),
    (r"shop\.longest_carried", _boards_only),
    (r"shop\.boards\.\d+\.price", _board_price),
    (r"shop\.boards\.\d+\.(have|length)", _on_hand),
    (r"shop\.supplies\..*", _nothing),
)  # fmt: skip
"""By the path of a field, what its change means; the first that fits counts."""
