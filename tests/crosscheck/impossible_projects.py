"""Random projects that are impossible by little, as files: small rooms, the same for the same seed; all invented."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from copy import deepcopy
from math import ceil, hypot
from random import Random
from typing import Any

from random_projects import Sizes

from fitter.domain.findings import ProjectError
from fitter.domain.project import Project
from fitter.model import any_layout
from fitter.project import read_project
from rooms.lengths import Length, Unit, format_length

Data = dict[str, Any]
WAYS = ("seats", "seats", "route", "route", "legroom", "stock", "stock", "shape", "clear", "span", "two")


def impossible_project(seed: int) -> tuple[str, Data]:
    """What breaks it, and the file of a project for which nothing fits, though something nearly does."""
    random = Random(f"impossible {seed}")
    way = random.choice(WAYS)
    while True:
        unit = random.choice((Unit.IN, Unit.IN, Unit.MM))
        made = _small(Sizes(random, unit), routed=way in ("route", "two"))
        fitting = _read(made)
        if fitting is not None and any_layout(fitting) is not None and (broken := _broken(random, way, made)):
            return way, {"title": f"invented misfit {seed}, {way}", **broken}


def small_file(seed: int) -> Data:
    """The file of a small room, with corners, or as taped; what it holds need not fit."""
    random = Random(f"small {seed}")
    while True:
        draw = Sizes(random, random.choice((Unit.IN, Unit.IN, Unit.MM)))
        made = {"title": f"invented small room {seed}", **_small(draw, routed=random.random() < 0.6)}
        if _read(made) is not None:
            return made


def written(data: Data) -> str:
    """The file's text."""
    return json.dumps(data, ensure_ascii=False)


def _read(data: Data) -> Project | None:
    try:
        return read_project("made.yaml", written(data))
    except ProjectError:
        return None


def _broken(random: Random, way: str, made: Data) -> Data | None:
    """The first of ever harder projects that is impossible; None where none of them is."""
    steps = _harder(random, "seats" if way == "two" else way, made)
    for data in steps:
        project = _read(data)
        if project is None:
            return None
        if any_layout(project) is None:
            again = random.choice(("route", "legroom", "shape"))
            return data if way != "two" else _twice(random, again, made, data)
    return None


def _twice(random: Random, way: str, made: Data, data: Data) -> Data | None:
    """Two things asked for that are too much, each by itself."""
    other = _broken(random, way, made)
    return other and _merged(made, data, other)


def _merged(made: Data, one: Data, other: Data) -> Data:
    """What differs from `made` in either."""
    return {
        key: _merged(made[key], one[key], other.get(key, {})) if isinstance(made.get(key), dict) else
        (other[key] if key in other and other[key] != made.get(key) else one.get(key, other.get(key)))
        for key in (*one, *(key for key in other if key not in one))
    }  # fmt: skip


def _harder(random: Random, way: str, made: Data) -> Iterator[Data]:
    """The project with ever more asked of it in one way."""
    say, wish = _teller(made), made["wish"]

    def changed(change: Callable[[Data], None]) -> Data:
        data = deepcopy(made)
        change(data)
        return data

    if way == "route":
        for width in range(26, 70, random.choice((2, 3, 5))):
            yield changed(lambda d, w=width: [r.update(width=say(w)) for r in d["room"].get("routes", [])])  # type: ignore[misc]
    elif way == "legroom":
        for deep in range(20, 70, random.choice((2, 5))):
            yield changed(lambda d, w=deep: d["wish"].update(legroom=say(w)))  # type: ignore[misc]
    elif way == "clear" and made["room"].get("obstacles"):
        for wide in range(4, 60, random.choice((2, 5))):
            yield changed(lambda d, w=wide: d["room"]["obstacles"][0].update(clear=say(w)))  # type: ignore[misc]
    elif way == "span":
        for span in range(40, 14, -2):
            yield changed(lambda d, w=span: d["frame"].update(max_span=say(w)))  # type: ignore[misc]
    else:
        if way == "stock":
            made = deepcopy(made)
            for kind in made["cushions"]:
                kind.pop("price", None)
                kind["own"] = random.choice((1, 1, 2, 3))
            if random.random() < 0.5:
                made["cushions"][0].update(own=1, price=40)
                made["wish"]["buy_at_most"] = random.choice((0, 1))
        shapes = ["L", "U", "straight"] if way == "shape" else [wish.get("shape", "any")]
        shape = random.choice(shapes)
        for seats in range(1, 16):
            yield changed(lambda d, n=seats: d["wish"].update(seats={"least": n}, shape=shape))  # type: ignore[misc]


def _teller(data: Data) -> Callable[[float], str]:
    draw = Sizes(Random(0), Unit(data["units"]))
    return lambda inches: format_length(draw.mark(inches), draw.unit)


def _small(draw: Sizes, *, routed: bool) -> Data:
    """A small room with one or two kinds of cushions, something of which may well fit."""
    random = draw.random
    room = _room(draw, routed=routed)
    wish: Data = {"seats": {"least": 1}, "legroom": _say(draw, draw.between(0, 14))}
    wish["off_wall"] = _say(draw, draw.mark(random.choice((0.5, 1, 3, 6))))
    if random.random() < 0.5:
        wish["shape"] = random.choice(("straight", "straight", "L", "any"))
    if random.random() < 0.3:
        wish["ends"] = random.choice(("open", "armed", "any"))
    if random.random() < 0.3:
        wish["corner"] = random.choice(("inside post", "outside post", "low post", "table corner"))
    if random.random() < 0.5:
        wish["against"] = random.choice(("free", ["AB"], ["BC", "AB"], ["CD"]))
    frame = {"max_span": _say(draw, draw.mark(random.choice((48, 60, 72))))}
    return {
        "units": draw.unit.value, "room": room, "cushions": list(_cushions(draw)), "wish": wish, "frame": frame,
    }  # fmt: skip


def _say(draw: Sizes, length: Length) -> str:
    return format_length(length, draw.unit)


def _cushions(draw: Sizes) -> Iterator[Data]:
    for n in range(draw.random.choice((1, 1, 2))):
        size = (draw.between(18, 26), draw.between(20, 25), draw.mark(4))
        kind: Data = {"name": f"kind {n}", "size": [_say(draw, part) for part in size]}
        if draw.random.random() < 0.5:
            kind["ease"] = _say(draw, draw.mark(draw.random.choice((0.125, 0.25))))
        if draw.random.random() < 0.3:
            kind["may_turn"] = "yes"
        kind.update({"price": 40} if draw.random.random() < 0.8 else {"own": draw.random.choice((2, 3, 6))})
        yield kind


def _room(draw: Sizes, *, routed: bool) -> Data:
    random = draw.random
    kind = random.choice(("rectangle", "rectangle", "rectangle", "L", "skew", "cut corner"))
    w, h = draw.between(60, 110), draw.between(46, 80)
    if routed:
        h += draw.mark(24)
    a, b, o = draw.between(20, 30), draw.between(14, 24), Length(0)
    off = [draw.between(-4, 4, 0.0625) for _ in range(4)]
    ring = {
        "rectangle": [(o, o), (w, o), (w, h), (o, h)],
        "L": [(o, o), (w, o), (w, h - b), (w - a, h - b), (w - a, h), (o, h)],
        "skew": [(o, o), (w, o), (w + off[0], h + off[1]), (off[2], h + off[3])],
        "cut corner": [(o, o), (w, o), (w, h - b), (w - a, h), (o, h)],
    }[kind]
    if random.random() < 0.3:
        ring = [ring[0], *reversed(ring[1:])]
    names = "ABCDEF"[: len(ring)]
    found: Data = {"tolerance": _say(draw, draw.mark(random.choice((0, 0.125, 0.25, 0.5))))}
    if random.random() < 0.5 or ring[1][1] != o:
        found["corners"] = {name: [_say(draw, x), _say(draw, y)] for name, (x, y) in zip(names, ring, strict=True)}
    else:
        found |= _taped(draw, names, ring, square=kind in ("rectangle", "L"))
    sides = [names[n] + names[(n + 1) % len(ring)] for n in range(len(ring))]
    lengths = [_apart(ring[n], ring[(n + 1) % len(ring)]) for n in range(len(ring))]
    doors = list(_openings(draw, list(zip(sides, lengths, strict=True)), 2 if routed else random.choice((0, 1, 1))))
    found |= {"openings": doors} if doors else {}
    if routed and len(doors) == 2:
        found["routes"] = [{"name": "way", "from": "door 0", "to": "door 1", "width": _say(draw, draw.mark(24))}]
    if random.random() < 0.45:
        found["obstacles"] = [_obstacle(draw, float(w.inch), float(h.inch))]
    return found


def _apart(a: tuple[Length, Length], b: tuple[Length, Length]) -> Length:
    return Length(round(hypot((a[0] - b[0]).units, (a[1] - b[1]).units)))


def _taped(draw: Sizes, names: str, ring: list[tuple[Length, Length]], *, square: bool) -> Data:
    """Sides with turns, or with ties; a tape that is off by a mark now and then where ties allow that."""
    count = len(ring)
    lengths = {names[n] + names[(n + 1) % count]: _apart(ring[n], ring[(n + 1) % count]) for n in range(count)}
    found: Data = {"sides": {name: _say(draw, length) for name, length in lengths.items()}}
    ties = {names[0] + names[n]: _say(draw, _apart(ring[0], ring[n])) for n in range(2, count - 1)}
    if count == 4 and draw.random.random() < 0.5:
        ties[names[1] + names[3]] = _say(draw, _apart(ring[1], ring[3]))
    return found | ({"turns": _turns(names, ring)} if square else {"ties": ties})


def _turns(names: str, ring: list[tuple[Length, Length]]) -> Data:
    found = {}
    for n, name in enumerate(names):
        (ax, ay), (bx, by), (cx, cy) = ring[n - 1], ring[n], ring[(n + 1) % len(ring)]
        cross = (bx - ax).units * (cy - by).units - (by - ay).units * (cx - bx).units
        found[name] = "left" if cross > 0 else "right"
    return found


def _openings(draw: Sizes, sides: list[tuple[str, Length]], count: int) -> Iterator[Data]:
    random = draw.random
    wide = [side for side in sides if side[1] > draw.mark(34)]
    for n, (name, length) in enumerate(random.sample(wide, k=min(count, len(wide)))):
        width = draw.mark(random.choice((24, 28, 30)))
        spare = (length - width).floor_to(draw.mark(0.5)).inch
        start = draw.between(0, max(0.0, float(spare)), 0.5)
        swing = random.choice(("none", "none", "out", "in"))
        edge = name if random.random() < 0.7 else name[::-1]
        yield {"name": f"door {n}", "edge": edge, "from": _say(draw, start), "width": _say(draw, width), "swing": swing}


def _obstacle(draw: Sizes, wide: float, high: float) -> Data:
    random = draw.random
    x, y, a, b = draw.between(4, ceil(wide * 0.8)), draw.between(4, ceil(high * 0.7)), draw.mark(6), draw.mark(9)
    form = random.choice(("at", "at", "centre", "corners"))
    spot: Data = {
        "at": {"at": [_say(draw, x), _say(draw, y)], "size": [_say(draw, a), _say(draw, b)]},
        "centre": {"centre": [_say(draw, x), _say(draw, y)], "radius": _say(draw, draw.mark(4))},
        "corners": {"corners": [[_say(draw, p), _say(draw, q)] for p, q in ((x, y), (x + a, y), (x + a, y + b))]},
    }[form]
    clear = _say(draw, draw.mark(random.choice((0, 3, 6))))
    return {"name": "thing", **spot, "clear": clear, "height": random.choice(("full", "full", "low", "reach"))}
