"""Questions about the outline: sides as the tape walks them, turns, and the ties that fix or best check the shape."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations
from string import ascii_uppercase

from fitter.cli.starting.asking import Question, Script, Steps
from fitter.cli.starting.readers import Read, either, optional, word
from fitter.cli.starting.sheet import ContradictionError, Sheet
from fitter.project.defaults import defaults
from fitter.project.outline import edge_name, split_edge
from fitter.project.words import listed, plain
from fitter.project.writing_values import BadValueError, value_reader
from rooms.lengths import parse_length
from rooms.survey import Angle, Readings, Survey, SurveyError, SurveyProblem, Turn, adjust, describe

_CLOSE = "close"
_QUARTERS = {"l": "left", "left": "left", "r": "right", "right": "right"}
_OTHER_TIE = re.compile(r"(?P<name>[A-Za-z0-9 -]+?)\s*=\s*(?P<length>.+)")
_Side = tuple[str, str, str]


def outline(sheet: Sheet) -> Script:
    """Ask for the outline until its readings fix the shape and agree."""
    walk = yield from _sides(sheet)
    turns = yield from _turns(tuple(first for first, _, _ in walk))
    if not any(turn in tuple(Turn) for turn in turns.values()):
        walk = yield from _kept_left(walk)
        _settle(sheet, walk)
    sheet.room["turns"] = turns
    yield from _Ties(sheet, tuple(first for first, _, _ in walk)).asked()
    for section in ("turns", "ties"):
        if not sheet.room[section]:
            del sheet.room[section]
    sheet.check()


def _sides(sheet: Sheet) -> Steps[list[_Side]]:
    """Each side's first corner, second corner and length, until the walk is back at its first corner."""
    walk: list[_Side] = []
    closed = False
    while not closed:
        answer = yield _side(sheet, len(walk))
        closed = answer.startswith(_CLOSE)
        length = answer.removeprefix(_CLOSE).strip()
        if length:
            walk.append((corner_name(len(walk)), corner_name(len(walk) + 1), length))
        if closed:
            walk[-1] = (walk[-1][0], corner_name(0), walk[-1][2])
        _settle(sheet, walk)
    return walk


def corner_name(k: int) -> str:
    """A to Z, then A1 to Z1, and so on."""
    return ascii_uppercase[k % 26] + (str(k // 26) if k >= 26 else "")


def _side(sheet: Sheet, k: int) -> Question:
    first, back = corner_name(k), corner_name(0)
    example = "16' 4 1/2\"" if sheet.unit.imperial else "4985 mm"
    text = f"Side {first}{corner_name(k + 1)}: its length, such as {example}"
    if k == 2:
        text = f"Side from {first} on: its length; if it comes back to {back}, such as `{_CLOSE} {example}`"
    if k > 2:
        text = f"Side from {first} on: its length, or Enter if the last one came back to {back}"
    if k > 1 and _key(k + 1) in sheet.answers:
        text = f"S{_side_name(sheet, k)[1:]}: its length"
    return Question(
        key=_key(k),
        text=text,
        read=_closing(k, value_reader("size", sheet.unit)),
        default=_CLOSE if k > 2 else None,
        more="Walk once round the edge of the room and tape each side; the corners are called A, B, C and so on. "
        f"`{_CLOSE}` ends the walk: alone, if the last side came back to A; before a length, if this one does.",
        label=lambda: _side_name(sheet, k),
        unit=sheet.unit,
    )


def _side_name(sheet: Sheet, k: int) -> str:
    """What a side is called, as far as the answers tell: the last one is known by what was answered after it."""
    if sheet.answers.get(_key(k)) == _CLOSE:
        return "end of the walk"
    last = sheet.answers.get(_key(k + 1)) == _CLOSE or sheet.answers.get(_key(k), "").startswith(_CLOSE)
    return f"side {edge_name(corner_name(k), corner_name(0 if last else k + 1))}"


def _key(k: int) -> str:
    return f"room.sides.{k + 1}"


def _closing(k: int, read: Read) -> Read:
    def read_side(text: str) -> str:
        first, _, length = text.partition(" ")
        if plain(first) != _CLOSE:
            return read(text)
        if k + bool(length.strip()) < 3:
            message = f"the walk has only {k} side{'s' * (k != 1)} so far"
            raise BadValueError(message, "an outline has three sides at least; write the length of the next one")
        return f"{_CLOSE} {read(length)}" if length.strip() else _CLOSE

    return read_side


def _settle(sheet: Sheet, walk: list[_Side]) -> None:
    """Write the sides, and remember under which question each was taped."""
    sheet.room["sides"] = {edge_name(first, second): length for first, second, length in walk}
    for first, second, _ in walk:
        low, high = sorted((_number(first), _number(second)))
        sheet.asked_as[f"room.sides.{edge_name(first, second)}"] = _key(low if high - low == 1 else high)


def _number(corner: str) -> int:
    return ascii_uppercase.index(corner[0]) + 26 * int(corner[1:] or 0)


def _turns(corners: tuple[str, ...]) -> Steps[dict[str, str]]:
    turns: dict[str, str] = {}
    for k in range(1, len(corners) + 1):
        before, here, after = (corners[j % len(corners)] for j in (k - 1, k, k + 1))
        turn = yield Question(
            key=f"room.turns.{here}",
            text=f"At {here}, from {before}{here} into {here}{after}: left or right for a quarter turn, else the "
            "inside angle in degrees",
            read=optional(either(_QUARTERS, value_reader("turn"))),
            default="",
            shown="not known",
            more="What you do at this corner as you walk on. Ties can make up for turns that are not known.",
            label=f"turn at {here}",
        )
        if turn:
            turns[here] = turn
    return turns


def _kept_left(walk: list[_Side]) -> Steps[list[_Side]]:
    """The walk with the room on its left: a file without quarter turns is read so."""
    first, second, _ = walk[0]
    hand = yield Question(
        key="room.walk",
        text=f"Walking from {first} to {second}, on which hand was the room: left or right",
        read=word("left", "right"),
        default="left",
        label="hand of the room",
    )
    return walk if hand == "left" else [(second, first, length) for first, second, length in reversed(walk)]


class _Ties:
    """Asks for ties: those that fix the shape, then those that check most of what nothing checks.

    Args:
        sheet: has sides and turns.
        corners: in the order of the walk as it will be written.
    """

    def __init__(self, sheet: Sheet, corners: tuple[str, ...]) -> None:
        self._sheet = sheet
        self._corners = corners
        self._ties: dict[str, str] = {}
        self._declined: list[str] = []
        sheet.room["ties"] = self._ties

    def asked(self) -> Script:
        """Ask until the shape is fixed, and no tie is worth taping or the user has enough."""
        known = [key.rpartition(".")[2] for key in self._sheet.answers if key.startswith("room.ties.")]
        for name in known:
            if self._possible(name):
                yield from self._tie(name)
        while (advice := self._advice()) is not None:
            yield from self._tie(*advice)

    def _tie(self, name: str, why: str = "") -> Script:
        example = "19' 9 3/4\"" if self._sheet.unit.imperial else "6040 mm"
        answer = yield Question(
            key=f"room.ties.{name}",
            text=f"Tie {name}{f' ({why})' if why else ''}: its length, such as {example}",
            read=optional(self._reader(name)),
            default="",
            shown="not taped",
            more=f"A diagonal, taped straight across. Where {name} cannot be taped, Enter lets another be proposed; "
            f"or name one yourself, such as `{self._another(name)} = {example}`.",
            label=f"tie {name}",
            unit=self._sheet.unit,
        )
        lengths = _lengths(answer)
        if not lengths.get(""):
            self._declined.append(name)
        for other, length in lengths.items():
            self._ties[other or name] = length
            self._sheet.asked_as[f"room.ties.{other or name}"] = f"room.ties.{name}"

    def _reader(self, asked: str) -> Read:
        """Takes the length of the tie asked for, and those of others by name; what is not given anew stays."""
        read_length = value_reader("size", self._sheet.unit)

        def read(text: str) -> str:
            lengths = _lengths(self._sheet.answers.get(f"room.ties.{asked}", ""))
            for part in text.split(";"):
                named = _OTHER_TIE.fullmatch(part.strip())
                name = named["name"].replace(" ", "").upper() if named else ""
                if named and not self._possible(name):
                    message = f"`{named['name']}` is no tie that is still to be taped"
                    help = f"a tie joins two corners that are no neighbours: {listed(self._untaped())}"
                    raise BadValueError(message, help)
                lengths["" if name == asked else name] = read_length(named["length"] if named else part)
            return "; ".join(f"{name} = {length}" if name else length for name, length in lengths.items())

        return read

    def _another(self, name: str) -> str:
        return next((other for other in self._untaped() if other != name), name)

    def _pairs(self) -> Iterator[tuple[str, str]]:
        """The corners of every possible tie."""
        last = len(self._corners) - 1
        for (i, first), (j, second) in combinations(enumerate(self._corners), 2):
            if j - i not in (1, last):
                yield first, second

    def _untaped(self) -> list[str]:
        taped = [frozenset(split_edge(name, self._corners) or ()) for name in (*self._ties, *self._declined)]
        return [_tie_name(*pair) for pair in self._pairs() if frozenset(pair) not in taped]

    def _possible(self, name: str) -> bool:
        pair = split_edge(name, self._corners)
        return pair is not None and _tie_name(*pair) in self._untaped()

    def _advice(self) -> tuple[str, str] | None:
        """The next tie worth taping and what it is good for; None if there is none.

        Raises:
            ContradictionError: the readings make no outline, and no tie would help.
        """
        try:
            survey = adjust(self._readings())
        except SurveyError as error:
            return self._needed(error.problems[0])
        self._sheet.clockwise = not survey.anticlockwise
        return self._worthwhile(survey)

    def _worthwhile(self, survey: Survey) -> tuple[str, str] | None:
        pair = split_edge(survey.next_tie, self._corners) if survey.next_tie else None
        if pair is None or _tie_name(*pair) in self._declined:
            return None
        return _tie_name(*pair), f"worth taping, to check {', '.join(survey.unchecked)}"

    def _needed(self, problem: SurveyProblem) -> tuple[str, str]:
        message, help = describe(problem, self._sheet.unit)
        left = self._untaped()
        if problem.code not in ("not-fixed", "two-outlines") or not left:
            raise ContradictionError(message, help, tuple(self._at_fault(problem)))
        wanted = [_tie_name(*pair) for name in problem.settle if (pair := split_edge(name, self._corners))]
        name = next((name for name in wanted if name in left), left[0])
        return name, f"needed, for {message}"

    def _at_fault(self, problem: SurveyProblem) -> Iterator[str]:
        """Questions about the readings that a problem names, then those about all others."""
        for name in problem.readings:
            pair = split_edge(name, self._corners)
            names = (edge_name(*pair), edge_name(*reversed(pair)), _tie_name(*pair)) if pair else ()
            keys = [f"room.{kind}.{written}" for written in names for kind in ("sides", "ties")]
            yield from (self._sheet.asked_as[key] for key in keys if key in self._sheet.asked_as)
            if name in self._corners:
                yield f"room.turns.{name}"
        yield from ("room.ties.", "room.turns.", *self._sheet.asked_as.values())

    def _readings(self) -> Readings:
        unit, room = self._sheet.unit, self._sheet.room
        tolerance = room.get("tolerance")
        lengths = {kind: [(*self._ends(name), parse_length(text, unit)) for name, text in room[kind].items()]
                   for kind in ("sides", "ties")}  # fmt: skip
        return Readings(
            corners=self._corners,
            sides=tuple(lengths["sides"]),
            turns=tuple((corner, _angle(turn)) for corner, turn in room["turns"].items()),
            ties=tuple(lengths["ties"]),
            tolerance=parse_length(tolerance, unit) if tolerance else defaults(unit).tolerance,
        )

    def _ends(self, name: str) -> tuple[str, str]:
        ends = split_edge(name, self._corners)
        assert ends is not None, "sides and ties were named from the corners"
        return ends


def _lengths(answer: str) -> dict[str, str]:
    """The ties of an answer with their lengths; the one that was asked for has no name."""
    parts = (part.strip().rpartition(" = ") for part in answer.split(";") if part.strip())
    return {name: length for name, _, length in parts}


def _tie_name(first: str, second: str) -> str:
    """The name of a tie, whichever way round its corners come."""
    return edge_name(*sorted((first, second), key=_number))


def _angle(turn: str) -> Angle:
    return Turn(turn) if turn in tuple(Turn) else Fraction(re.sub(r"[^0-9.]", "", turn))
