"""What the user asks for."""

from __future__ import annotations

from typing import Annotated

from pydantic import TypeAdapter

from fitter.domain.benchmarks import Topic
from fitter.domain.wishes import DEFAULT_ORDER, EndKind, Objective, Wish
from fitter.project.defaults import defaults
from fitter.project.edges import EdgeNames
from fitter.project.fields import SeatCount, Text, one_of, words_of
from fitter.project.forms import EndsForm, SeatsForm, WishForm
from fitter.project.ledger import Ledger
from fitter.project.small import LEGROOM, ask_small
from fitter.project.tree import Data
from fitter.project.words import plain
from rooms.lengths import Length

FARTHEST_OFF = Length.inches(20 * 12)
"""Common practice: more leg room or distance than this is most likely a slip or another unit."""

_COUNT: TypeAdapter[int] = TypeAdapter(SeatCount)
_BY_HAND = "`any`, `armed`, `open` or, each by its hand, `{left: open, right: armed}`"
_ENDS: TypeAdapter[EndKind | None] = TypeAdapter(Annotated[EndKind | None, one_of(words_of(EndKind, "any"), _BY_HAND)])
_TEXT: TypeAdapter[str] = TypeAdapter(Text)
_TOPICS = "`true`, `false` or a list of topics"
_TOPIC: TypeAdapter[Topic] = TypeAdapter(Annotated[Topic, one_of(words_of(Topic))])
_ALL_OR_ONE: TypeAdapter[tuple[Topic, ...]] = TypeAdapter(
    Annotated[
        tuple[Topic, ...],
        one_of({"true": tuple(Topic), "yes": tuple(Topic), "false": (), "no": (), **{t: (t,) for t in Topic}}, _TOPICS),
    ]
)


def read_wish(ledger: Ledger, data: Data, names: EdgeNames) -> Wish:
    """The wish, complete with defaults.

    Args:
        ledger: takes the mistakes.
        data: `wish`.
        names: of the edges, for `against`.
    """
    form = ledger.section(WishForm, data, "wish")
    usual = defaults(ledger.unit)
    least, most = _seats(ledger, form.seats)
    left_end, right_end = _ends(ledger, form.ends)
    for name in ("off_wall", "legroom"):
        value = getattr(form, name)
        if value is not None and ledger.unit_known and value > FARTHEST_OFF:
            message = f"`{name}` is {ledger.say(value)}"
            ledger.error("size-absurd", message, f"wish.{name}", ledger.ask_unit)
    if form.legroom:
        # None at all is a wish of its own.
        ask_small(ledger, f"`legroom` is {ledger.say(form.legroom)}", form.legroom, LEGROOM, "wish.legroom")
    return Wish(
        shape=form.shape,
        least=least,
        most=most,
        left_end=left_end,
        right_end=right_end,
        hand=form.hand,
        corner=form.corner,
        against=_against(ledger, form.against, names),
        off_wall=form.off_wall if form.off_wall is not None else usual.off_wall,
        legroom=form.legroom if form.legroom is not None else usual.legroom,
        prefer=_prefer(ledger, form.prefer),
        buy_most=form.buy_at_most,
        fill=form.fill,
        strict=_strict(ledger, form.strict),
    )


def _seats(ledger: Ledger, data: Data) -> tuple[int, int | None]:
    if data is None:
        return 1, None
    if isinstance(data, str):
        return ledger.value(_COUNT, data, "wish.seats") or 1, None
    form = ledger.section(SeatsForm, data, "wish.seats")
    if form.most is not None and form.most < form.least:
        message = f"at least {form.least} and at most {form.most} seats are asked for"
        ledger.error("least-above-most", message, "wish.seats.least", "`least` must not be above `most`")
    return form.least, form.most


def _ends(ledger: Ledger, data: Data) -> tuple[EndKind | None, EndKind | None]:
    """The kinds of the left and the right end: one word for both, or each by its hand."""
    if isinstance(data, dict):
        form = ledger.section(EndsForm, data, "wish.ends")
        return form.left, form.right
    both = None if data is None else ledger.value(_ENDS, data, "wish.ends")
    return both, both


def _against(ledger: Ledger, data: Data, names: EdgeNames) -> tuple[str, ...] | None:
    if isinstance(data, str) and plain(data) in ("edge", "free"):
        return names.names if plain(data) == "edge" else None
    single = not isinstance(data, list)
    items = [("wish.against", data)] if single else list(ledger.items(data, "wish.against", "edges"))
    if not items:
        help = "write `edge`, `free` or a list of edges"
        ledger.error("empty-value", "`against` names no edge", "wish.against", help)
    edges = []
    for key, item in items:
        text = ledger.value(_TEXT, item, key, "`edge`, `free` or a list of edges")
        found = names.find(ledger, text, key) if text is not None else None
        if found is not None:
            edges.append(found[0])
    return tuple(dict.fromkeys(edges))


def _strict(ledger: Ledger, data: Data) -> tuple[Topic, ...]:
    """The topics that are to be kept, in their own order."""
    if data is None:
        return ()
    if not isinstance(data, list):
        return ledger.value(_ALL_OR_ONE, data, "wish.strict") or ()
    found = [ledger.value(_TOPIC, item, key) for key, item in ledger.items(data, "wish.strict", "topics")]
    return tuple(topic for topic in Topic if topic in found)


def _prefer(ledger: Ledger, wanted: list[Objective]) -> tuple[Objective, ...]:
    for index, objective in enumerate(wanted):
        if objective in wanted[:index]:
            message = f"`{objective}` is preferred twice"
            ledger.error("named-twice", message, f"wish.prefer.{index}", "keep the first of the two")
    return tuple(dict.fromkeys((*wanted, *DEFAULT_ORDER)))
