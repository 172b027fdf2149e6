"""Asks questions one after another; every answer can be taken back, and none is lost.

An interview is a script: a generator that yields questions and is sent their answers. To go back, the script is run
again from its start with the answers that are known, and stops at the question to be asked again. So a script needs no
thought of going back, and a draft of an earlier day is taken up in the same way.
"""

from __future__ import annotations

import re
import sys
import textwrap
from collections.abc import Callable, Generator, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias, TypeVar

from fitter.cli.starting.sheet import ContradictionError, Sheet
from fitter.project.writing_values import BadValueError
from rooms.lengths import Unit, format_length, parse_length

_WIDTH = 78
_CONTROLS = "Enter takes what stands in brackets; `back` or `<` goes to the question before; `?` tells more"
_BARE = re.compile(r"[0-9][0-9./ -]*")
_BACK = ("back", "<")


@dataclass(frozen=True)
class Question:
    """One question.

    Args:
        key: where its answer belongs, as in the file: `room.openings.0.width`.
        text: what is asked, and what would be right, in one line or two.
        read: gives back an answer as it is to be kept, or raises BadValueError; what it gives it takes again.
        default: the answer that Enter gives; None if there is none.
        shown: how the default is shown; the default itself if empty.
        more: what `?` tells.
        label: what the answer is called when it is spoken of again.
        unit: of a length that is written without one, which is then told back; None where no length is asked.
    """

    key: str
    text: str
    read: Callable[[str], str]
    default: str | None = None
    shown: str = ""
    more: str = ""
    label: Callable[[], str] | str = ""
    unit: Unit | None = None

    @property
    def name(self) -> str:
        """What the answer is called; some names are known only once later answers are."""
        return self.label if isinstance(self.label, str) else self.label()


_T = TypeVar("_T")
Steps: TypeAlias = Generator[Question, str, _T]
"""Questions on the way to a value."""
Script: TypeAlias = Steps[None]


class InputEndedError(Exception):
    """Nobody answers any more: the end of input."""


class Terminal:
    """Speaks on standard error, so that standard output has the result alone, and hears standard input."""

    def say(self, text: str = "", indent: str = "") -> None:
        """A sentence of the program."""
        for line in text.splitlines() or [""]:
            print(textwrap.fill(line, _WIDTH, initial_indent=indent, subsequent_indent=indent), file=sys.stderr)

    def hear(self) -> str:
        """The next line of the user; raises InputEndedError if there is none."""
        print("> ", end="", file=sys.stderr, flush=True)
        line = sys.stdin.readline()
        if not sys.stdin.isatty() or not line:
            # What is typed at a terminal is seen there; what comes through a pipe is not.
            print(line.rstrip("\n"), file=sys.stderr)
        if not line:
            raise InputEndedError
        return line.strip()


class _BackError(Exception):
    """The user wants the question before."""


class _ElsewhereError(Exception):
    """The user wants to correct another answer than the one that is asked for."""

    def __init__(self, key: str) -> None:
        super().__init__(key)
        self.key = key


@dataclass
class Interview:
    """One run through a script.

    Args:
        script: fills a sheet.
        file: name of the file to be written.
        answers: what is known already, from a draft or from flags; filled in.
        terminal: to speak and hear.
    """

    script: Callable[[Sheet], Script]
    file: str
    answers: dict[str, str]
    terminal: Terminal = field(default_factory=Terminal)

    def __post_init__(self) -> None:
        self.sheet = Sheet(self.file)
        self.asked: list[Question] = []
        self.pending: Question | None = None
        self._again: str | None = None
        self._newest: str | None = None
        self._others: dict[str, str] = {}

    def conduct(self) -> Sheet:
        """Ask until the user is content.

        Returns:
            The sheet, sound and complete.

        Raises:
            InputEndedError: the input ended; `settle` tells how far it went.
            KeyboardInterrupt: likewise.
        """
        self.terminal.say(_CONTROLS + ".")
        while True:
            try:
                self._run()
                if self._content():
                    return self.sheet
            except _BackError:
                self._reopen_last()
            except _ElsewhereError as elsewhere:
                self._again = elsewhere.key
            except ContradictionError as contradiction:
                self._reopen(contradiction)

    def settle(self) -> str:
        """Bring the sheet as far as the answers go, whatever was asked again last.

        Returns:
            What is still to be done, in a sentence.
        """
        self.sheet = Sheet(self.file, self.answers)
        steps = self.script(self.sheet)
        try:
            self.pending = next(steps)
            while self.pending.key in self.answers:
                self.pending = steps.send(self.pending.read(self.answers[self.pending.key]))
        except ContradictionError as contradiction:
            return f"Still to be settled: {contradiction}."
        except StopIteration:
            return "All is answered; it was not said yet that the answers are right."
        except BadValueError as refused:
            return f"Still to be corrected: {self.pending.name if self.pending else ''}: {refused}."
        taped = self.pending.key.startswith(("room.sides.", "room.ties."))
        return f"Still to be {'taped' if taped else 'answered'}: {self.pending.name}, and what comes after it."

    def _run(self) -> None:
        """Run the script from its start, asking only what is not known."""
        self.sheet, self.asked = Sheet(self.file, self.answers), []
        steps = self.script(self.sheet)
        try:
            question = next(steps)
            while True:
                answer = self._answer(question)
                self.asked.append(question)
                question = steps.send(answer)
        except StopIteration:
            self._again = None

    def _answer(self, question: Question) -> str:
        known = self.answers.get(question.key)
        if known is not None and question.key != self._again:
            try:
                return question.read(known)
            except BadValueError as refused:
                self._refuse(f"{question.name}: {refused}", refused.help)
                known = None
        answer = self._ask(question, known)
        self.answers[question.key] = answer
        self._newest = question.key
        self._again, self._others = None, {}
        return answer

    def _ask(self, question: Question, known: str | None) -> str:
        default = question.default if known is None else known
        shown = question.shown if default == question.default and question.shown else default or "none"
        others = self._others if question.key == self._again else {}
        elsewhere = f"; or the name of another answer to correct: {', '.join(others)}" if others else ""
        while True:
            self.terminal.say(question.text + elsewhere + (f" [{shown}]" if default is not None else ""))
            heard = self.terminal.hear()
            if heard.lower() in _BACK:
                raise _BackError
            if heard == "?":
                self.terminal.say(f"{question.more}\n{_CONTROLS}." if question.more else f"{_CONTROLS}.", "  ")
            elif heard or default is None:
                answer = self._taken(question, heard, others)
                if answer is not None:
                    return answer
            else:
                return default

    def _taken(self, question: Question, heard: str, others: Mapping[str, str]) -> str | None:
        """The answer as it is kept; None, with a word about it, if it cannot be taken."""
        if not heard:
            self._refuse("an answer is needed", "")
            return None
        try:
            answer = question.read(_unquoted(heard))
        except BadValueError as refused:
            found = [key for name, key in others.items() if heard.lower() in (name.lower(), _short(name).lower())]
            if found:
                raise _ElsewhereError(found[0]) from None
            self._refuse(str(refused), refused.help)
            return None
        if question.unit is not None and _BARE.fullmatch(answer):
            self.terminal.say(f"that is {format_length(parse_length(answer, question.unit), question.unit)}", "  ")
        return answer

    def _refuse(self, message: str, help: str) -> None:
        self.terminal.say(f"{message}; {help}" if help else message, "  ")

    def _reopen_last(self) -> None:
        if self.asked:
            self._again = self.asked[-1].key
        else:
            self.terminal.say("This is the first question.", "  ")

    def _reopen(self, contradiction: ContradictionError) -> None:
        """Tell of answers that do not go together, and ask for one of them again: the newest, else the likeliest."""
        self.terminal.say()
        self._refuse(str(contradiction), contradiction.help)
        found = [question for key in contradiction.keys for question in self.asked if _under(question.key, key)]
        # What was left out is at fault only if nothing else can be.
        given = [question for question in found if self.answers[question.key]]
        at_fault = list({question.key: question for question in given or found or self.asked}.values())
        first = next((question for question in at_fault if question.key == self._newest), at_fault[0])
        self._again = first.key
        names = [_short(question.name) for question in at_fault]
        unique = len(set(names)) == len(names)
        self._others = {
            name if unique else question.name: question.key
            for name, question in zip(names, at_fault, strict=True)
            if question is not first
        }

    def _content(self) -> bool:
        """Show every answer by its number; False if one is to be asked again."""
        self.terminal.say("\nThese are the answers:")
        for number, question in enumerate(self.asked, 1):
            answer = self.answers[question.key] or question.shown or "none"
            self.terminal.say(f"{number:4}  {question.name}: {answer}")
        while True:
            self.terminal.say(f"The number of an answer to correct, or Enter to write {self.file}")
            heard = self.terminal.hear()
            if not heard:
                return True
            if heard.lower() in _BACK:
                raise _BackError
            if heard.isdecimal() and 0 < int(heard) <= len(self.asked):
                self._again = self.asked[int(heard) - 1].key
                return False
            self._refuse(f"`{heard}` is no number from 1 to {len(self.asked)}", "")


def _short(name: str) -> str:
    """The last word of a name such as `side AB`; what a thing of a list is called stays whole."""
    return name if "," in name else name.split()[-1]


def _under(key: str, start: str) -> bool:
    return key.startswith(start) if start.endswith(".") else key == start


def _unquoted(text: str) -> str:
    """A text without quotes about it, so that a thing may be named `back`; feet and inches keep their signs."""
    quoted = len(text) > 2 and text[0] == text[-1] == '"'
    return text[1:-1] if quoted else text
