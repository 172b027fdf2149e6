"""The questions of an interview, section by section in the order of the file; the outline's are in `surveying`."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeAlias

from fitter.cli.starting.asking import Question, Script, Steps
from fitter.cli.starting.readers import (
    FLAG,
    Read,
    counts,
    either,
    lengths,
    name_of,
    optional,
    parts,
    ring,
    word,
)
from fitter.cli.starting.sheet import Sheet
from fitter.cli.starting.surveying import outline
from fitter.domain.wishes import CornerKind, EndKind, Shape
from fitter.project.defaults import FLAME_CLEAR, defaults
from fitter.project.outline import split_edge
from fitter.project.writing_values import value_reader
from rooms.lengths import Length, Unit, format_length
from rooms.room import EdgeKind, Height, Hinge, Swing

_Item: TypeAlias = dict[str, Any]
_UNITS = {"inch": "in", "inches": "in", '"': "in", "feet": "ft", "foot": "ft", "'": "ft", "metre": "m", "meter": "m",
          "metres": "m", "meters": "m", "millimetres": "mm", "centimetres": "cm"}  # fmt: skip
_DROP = "drop"


def interview(sheet: Sheet) -> Script:
    """Ask for everything that a starter file says."""
    yield from _top(sheet)
    yield from outline(sheet)
    yield from _edges(sheet)
    yield from _list(sheet, sheet.room, "room.openings", "opening", "door or gate", _opening)
    yield from _list(sheet, sheet.room, "room.obstacles", "obstacle", "thing that seats stay off", _obstacle)
    yield from _list(sheet, sheet.room, "room.holes", "hole", "hole in the ground, such as a tree well", _shape)
    if len(sheet.room.get("openings", ())) > 1:
        yield from _routes(sheet)
    yield from _list(sheet, sheet.data, "cushions", "cushion", "kind of cushion", _cushion)
    yield from _wish(sheet)


def _top(sheet: Sheet) -> Script:
    sheet.data["title"] = yield Question("title", "Title of the project", value_reader("text"), "Patio", label="title")
    units = Question(
        "units", "What a bare number means: in, ft, mm, cm or m", word(*Unit, also=_UNITS), "in", label="units"
    )
    sheet.data["units"] = yield units
    usual = _say(sheet, defaults(sheet.unit).tolerance)
    text = "How far one reading of your tape may be off"
    tolerance = yield Question("room.tolerance", text, _length(sheet, "distance"), usual, label="tolerance")
    if tolerance != usual:
        sheet.room["tolerance"] = tolerance


def _edges(sheet: Sheet) -> Script:
    kinds: dict[str, str] = {}
    for edge in sheet.room["sides"]:
        text = f"What stands along {edge}: wall, railing, open or step"
        kinds[edge] = yield Question(f"room.edges.{edge}", text, word(*EdgeKind), "wall", label=f"edge {edge}")
    sheet.room["edges"] = kinds


def _list(
    sheet: Sheet, section: _Item, key: str, one: str, what: str, ask: Callable[[Sheet, str, str], Steps[_Item]]
) -> Script:
    """Ask for things by name until there are no more.

    Args:
        sheet: is checked after each.
        section: where the list belongs.
        key: of the list.
        one: a single thing, in a word.
        what: the same for the question.
        ask: the questions about one, given the start of their keys and its name.
    """
    found: list[_Item] = []
    for number in range(100):
        start = f"{key}.{number}"
        name = yield Question(
            key=f"{start}.name",
            text=f"A {what}: its name" if not number else f"Another {what}: its name",
            read=optional(either({_DROP: _DROP}, name_of(item["name"] for item in found))),
            default="",
            shown="none" if not number else "no more",
            more=f"`none` ends the list; `{_DROP}` leaves out this one and keeps those after it; a name such as `back` "
            "goes in quotes.",
            label=f"{one} {number + 1}",
        )
        if not name:
            return
        if name != _DROP:
            sheet.asked_as[f"{key}.{len(found)}"] = start
            found.append({"name": name, **(yield from ask(sheet, start, name))})
            section[key.rpartition(".")[2]] = found
            sheet.check()


class _About:
    """Makes the questions about one thing of a list, under its key and labelled with its name."""

    def __init__(self, start: str, name: str) -> None:
        self._start = start
        self._name = name

    def __call__(
        self, key: str, text: str, read: Read, default: str | None = None, shown: str = "", more: str = ""
    ) -> Question:
        label = f"{self._name}, {key.replace('_', ' ')}"
        return Question(f"{self._start}.{key}", text, read, default, shown, more, label)


def _opening(sheet: Sheet, start: str, name: str) -> Steps[_Item]:
    edges, about = tuple(sheet.room["sides"]), _About(start, name)
    edge = yield about("edge", f"The edge that `{name}` stands in: {', '.join(edges)}", _edge(edges))
    first, second = split_edge(edge) or ("", "")
    text = f"How far along {edge} from corner {first} to its near jamb, such as {_either(sheet, '2 ft 6 in', '760 mm')}"
    item: _Item = {"edge": edge, "from": (yield about("from", text, _length(sheet, "distance")))}
    text = f"Its clear width, such as {_either(sheet, '32 in', '800 mm')}"
    item["width"] = yield about("width", text, _length(sheet, "size"))
    text = "Its leaf swings: in (over the patio, seats keep off what it sweeps), out (away from it), or none"
    swing = yield about("swing", text, word(*Swing), "none")
    if swing != "none":
        item["swing"] = swing
        text = f"Its hinges are at the jamb nearer to: first ({first}) or second ({second})"
        item["hinge"] = yield about(
            "hinge", text, either({first.lower(): "first", second.lower(): "second"}, word(*Hinge)), "first"
        )
    return item


def _shape(sheet: Sheet, start: str, name: str) -> Steps[_Item]:
    about = _About(start, name)
    known = next((kind for kind, key in _SHAPES.items() if f"{start}.{key}" in sheet.answers), "rectangle")
    kind = yield about("kind", f"The shape of `{name}`: round, rectangle or corners (any other)", word(*_SHAPES), known)
    return (yield from _SHAPED[kind](sheet, about))


def _obstacle(sheet: Sheet, start: str, name: str) -> Steps[_Item]:
    about = _About(start, name)
    item = yield from _shape(sheet, start, name)
    flame = yield about("open_flame", "It burns openly, as a fire bowl or a grill: yes or no", FLAG, "no")
    usual = format_length(FLAME_CLEAR, sheet.unit) if flame == "yes" else "0"
    text = "How far seats keep from it" + (" (local codes decide)" if flame == "yes" else "")
    clear = yield about("clear", text, _length(sheet, "distance"), usual)
    height = "full"  # what burns is neither trodden on nor reached into
    if flame == "no":
        text = "It stands in the way: full, low (a drain) or reach (a tap)"
        height = yield about("height", text, word(*Height), height, more=_HEIGHTS)
    return {**item, **_unless({"clear": (clear, usual), "height": (height, "full"), "open_flame": (flame, "no")})}


_HEIGHTS = (
    "full: nothing stands there; low: no foot stands on it, but seats may pass over it, as over a drain or a hatch; "
    "reach: the clear ground before it stays open, as before a tap or an outlet."
)


def _round(sheet: Sheet, about: _About) -> Steps[_Item]:
    example = _either(sheet, "7 ft 6 in x 5 ft", "2300 mm x 1500 mm")
    centre = yield about("centre", f"Its centre: {_along(sheet)}, such as {example}", _coordinates(sheet))
    radius = yield about("radius", f"Its radius, such as {_either(sheet, '16 in', '400 mm')}", _length(sheet, "size"))
    return {"centre": _place(sheet, centre), "radius": radius}


def _rectangle(sheet: Sheet, about: _About) -> Steps[_Item]:
    into = ", and farthest into the room" if sheet.clockwise else ""
    example = _either(sheet, "7 ft 6 in x 5 ft", "2300 mm x 1500 mm")
    text = f"Its corner nearest to {_first(sheet)[0]}{into}: {_along(sheet)}, such as {example}"
    at = yield about("at", text, _coordinates(sheet))
    text = f"Its size along that side x into the room, such as {_either(sheet, '20 in x 14 in', '500 mm x 350 mm')}"
    size = yield about("size", text, lengths("size", sheet.unit, ("along", "into the room")))
    return {"at": _place(sheet, at), "size": parts(size)}


def _polygon(sheet: Sheet, about: _About) -> Steps[_Item]:
    text = f"Its corners, each {_along(sheet)}, with semicolons between them: 0 x 0; 3 x 0; 3 x 2"
    corners = yield about("corners", text, ring(sheet.unit))
    return {"corners": [_place(sheet, corner) for corner in corners.split(";")]}


_SHAPES = {"round": "centre", "rectangle": "at", "corners": "corners"}
_SHAPED = {"round": _round, "rectangle": _rectangle, "corners": _polygon}


def _first(sheet: Sheet) -> tuple[str, str]:
    """The corners of the first side."""
    side = next(iter(sheet.room["sides"]))
    return split_edge(side) or (side, side)


def _along(sheet: Sheet) -> str:
    """How places in the room are said."""
    return f"how far along {''.join(_first(sheet))} from {_first(sheet)[0]} x how far into the room"


def _coordinates(sheet: Sheet) -> Read:
    return lengths("coordinate", sheet.unit, ("along", "into the room"))


def _place(sheet: Sheet, answer: str) -> list[str]:
    """Coordinates of a place; a room to the right of its first side lies below it."""
    along, into = parts(answer)
    if sheet.clockwise:
        into = into[1:].lstrip() if into.startswith("-") else f"-{into}"
    return [along, into]


def _routes(sheet: Sheet) -> Script:
    names = tuple(opening["name"] for opening in sheet.room["openings"])
    usual = _say(sheet, defaults(sheet.unit).route_width)
    found: list[_Item] = []
    for number in range(100):
        start = f"room.routes.{number}"
        about = _About(start, f"route {number + 1}")
        text = f"{'Another' if number else 'A'} walkway that stays open, from: {', '.join(names)}"
        here = yield about("from", text, optional(word(*names)), "", "none" if not number else "no more")
        if not here:
            return
        others = tuple(name for name in names if name != here)
        there = yield about("to", f"To: {', '.join(others)}", word(*others), others[0] if len(others) == 1 else None)
        width = yield about("width", "How wide it is to stay", _length(sheet, "size"), usual)
        found.append({"from": here, "to": there, "width": width})
        sheet.room["routes"] = found
        sheet.check()


def _cushion(sheet: Sheet, start: str, name: str) -> Steps[_Item]:
    about, unit = _About(start, name), sheet.unit
    example = _either(sheet, "24 in x 24 in x 5 in", "600 mm x 600 mm x 120 mm")
    text = f"As sold: width x depth x thickness, such as {example}"
    size = yield about("size", text, lengths("size", unit, ("width", "depth", "thickness")))
    text = "Its back cushion: width x height x thickness"
    back = yield about("back", text, optional(lengths("size", unit, ("width", "height", "thickness"))), "", "none")
    more = "Foam may be squeezed: then the ease is negative."
    ease = yield about("ease", "Ease: slack for each cushion in a row", _length(sheet, "coordinate"), "0", more=more)
    own = yield about("own", "How many are there already", optional(value_reader("count")), "", "none")
    text = "Price of one more, without a currency sign"
    price = yield about("price", text, optional(value_reader("price")), "", "no price", more=_OWN_AND_PRICE)
    turn = yield about("may_turn", "It may lie with its depth along the row: yes or no", FLAG, "no")
    notch = yield about("may_notch", "It may be cut for a post: yes or no", FLAG, "yes")
    seats = yield about("seats", "Sitting places on one: 1, 2 or 3", counts(1, 3), "1")
    item: _Item = {"size": parts(size)}
    if back:
        item["back"] = parts(back)
    flags = {"may_turn": (turn, "no"), "may_notch": (notch, "yes"), "seats": (seats, "1")}
    return {**item, **_unless({"ease": (ease, "0"), "own": (own, ""), "price": (price, ""), **flags})}


_OWN_AND_PRICE = "With a price more can be bought; with neither as many as wanted; without one, no more than are there."


def _wish(sheet: Sheet) -> Script:
    def about(key: str, text: str, read: Read, default: str = "any") -> Question:
        return Question(f"wish.{key}", text, read, default, label=f"wish, {key}")

    shape = yield about("shape", "Shape of the seating: any, straight, L or U", word("any", *Shape))
    seats = yield about("seats", "Fewest seats that will do, or fewest and most, such as 4-6", _SEATS, "1")
    ends = yield about("ends", "How its ends stop: any, armed or open", word("any", *EndKind))
    wish = _unless({"shape": (shape, "any"), "ends": (ends, "any")})
    if shape != "straight":
        text = "What holds the backs in a corner: any, inside post, outside post or table corner"
        wish |= _unless({"corner": ((yield about("corner", text, word("any", *CornerKind))), "any")})
    least, _, most = seats.partition("-")
    if most:
        wish["seats"] = {"least": least, "most": most}
    elif least != "1":
        wish["seats"] = {"least": least}
    if wish:
        sheet.data["wish"] = wish
        sheet.check()


_SEATS = counts(1, 10_000, spans=True)


def _unless(answers: dict[str, tuple[str, str]]) -> _Item:
    """Answers that differ from what counts without them."""
    return {key: answer for key, (answer, usual) in answers.items() if answer != usual}


def _length(sheet: Sheet, kind: str) -> Read:
    return value_reader(kind, sheet.unit)


def _edge(edges: tuple[str, ...]) -> Read:
    """Takes an edge by its name, in either direction."""
    turned = {"".join(reversed(split_edge(edge) or (edge,))): edge for edge in edges}
    names = {name.lower(): name for name in (*turned, *edges)}
    return either(names, word(*edges))


def _either(sheet: Sheet, imperial: str, metric: str) -> str:
    return imperial if sheet.unit.imperial else metric


def _say(sheet: Sheet, length: Length) -> str:
    return format_length(length, sheet.unit, feet=False)
