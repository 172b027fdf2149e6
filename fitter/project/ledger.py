"""What reading a file has found so far: every mistake with its place, in this project's words."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Any, TypeVar

from pydantic import TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from fitter.domain.findings import Finding, Place, ProjectError, Severity
from fitter.project.forms import Form
from fitter.project.tree import Data, Tree
from fitter.project.words import listed, meant, nearest, shown
from rooms.lengths import Length, Unit, format_length

_F = TypeVar("_F", bound=Form)
_T = TypeVar("_T")

MOST_ENTRIES = 100


class Ledger:
    """Collects findings while a file is read.

    Args:
        tree: the file.
        unit: of bare numbers; inches while it is not known.
    """

    def __init__(self, tree: Tree, unit: Unit = Unit.IN) -> None:
        self.tree = tree
        self.unit = unit
        self.unit_known = True
        self._findings = list(tree.findings)
        self._misspelt: set[str] = set()

    def branch(self) -> Ledger:
        """A ledger that knows all that was found so far, and what is found from here on by itself."""
        other = Ledger(self.tree, self.unit)
        other.unit_known = self.unit_known
        other._findings, other._misspelt = list(self._findings), set(self._misspelt)
        return other

    def since(self, before: int) -> tuple[Finding, ...]:
        """The mistakes recorded after the first `before` ones."""
        return tuple(f for f in self._findings if f.severity is Severity.ERROR)[before:]

    @property
    def errors(self) -> int:
        """How many mistakes were found so far."""
        return sum(finding.severity is Severity.ERROR for finding in self._findings)

    @property
    def sound(self) -> bool:
        """Whether nothing found so far stops the work."""
        return not self.errors

    def clean(self, *sections: str) -> bool:
        """Whether no mistake was found in these parts of the file."""
        errors = (finding.key for finding in self._findings if finding.severity is Severity.ERROR)
        return not any(f"{key}.".startswith(f"{section}.") for key in errors for section in sections)

    @property
    def ask_unit(self) -> str:
        """The remedy for a size that is absurd."""
        return f"is the unit right? A bare number means `{self.unit}` in this file"

    def say(self, length: Length) -> str:
        """A length as the project prints it, fine enough to show small differences."""
        return format_length(length, self.unit, denominator=64)

    def place(self, key: str) -> Place | None:
        """Where a key, or the nearest one above it, stands in the file."""
        while key and key not in self.tree.places:
            key = key.rpartition(".")[0]
        return self.tree.places.get(key) if key else None

    def raw(self, key: str) -> tuple[str, ...]:
        """The keys that were written in the mapping at `key`, sound or not."""
        start = f"{key}."
        return tuple(path[len(start) :] for path in self.tree.keys if path.startswith(start))

    def error(
        self,
        code: str,
        message: str,
        key: str,
        help: str = "",
        *,
        at_key: bool = False,
        details: tuple[str, ...] = (),
    ) -> None:
        """Record a mistake; `at_key` points at the key itself rather than at its value."""
        place = self.tree.keys.get(key) if at_key else None
        self._findings.append(Finding(code, message, key, place or self.place(key), help, details=details))

    def absent(self, code: str, message: str, key: str, help: str) -> None:
        """Record that a key is missing; one that is there, but misspelt, has been told already."""
        if not self.misspelt(key):
            self.error(code, message, key, help)

    def misspelt(self, *keys: str) -> bool:
        """Whether a key that was told as unknown stands for one of these."""
        return not self._misspelt.isdisjoint(keys)

    def remark(
        self, code: str, message: str, key: str, help: str = "", source: str = "", *, severity: Severity
    ) -> None:
        """Record a caution or a note."""
        self._findings.append(Finding(code, message, key, self.place(key), help, source, severity))

    def findings(self) -> tuple[Finding, ...]:
        """All findings in file order, those without a place first."""
        return tuple(sorted(self._findings, key=lambda finding: finding.place or Place(0, 0)))

    def settle(self) -> None:
        """Raise ProjectError if there is any mistake; `disagree` only if nothing else is wrong."""
        if not self.sound:
            errors = [finding for finding in self._findings if finding.severity is Severity.ERROR]
            disagree = all(finding.code in CONTRADICTIONS for finding in errors)
            raise ProjectError(self.tree.file, self.findings(), disagree=disagree)

    def form(self, kind: type[_F], data: Data, key: str) -> _F | None:
        """Read a mapping.

        Args:
            kind: the form with the keys that are known there.
            data: what the file has.
            key: its path.

        Returns:
            The form; faulty optional keys fall back to their defaults, so that what depends on the
            others can still be checked. None if a needed key is missing or faulty.
        """
        if not isinstance(data, dict):
            self._wrong_kind(data, key, f"a mapping with keys such as {listed(list(known_keys(kind))[:3], 'and')}")
            return None
        data = self._without_empty(kind, data, key)
        try:
            return kind.model_validate(data, context=self.unit)
        except ValidationError as error:
            details = error.errors(include_url=False)
            self._translate(kind, details, key)
        faulty = {str(detail["loc"][0]) for detail in details}
        try:
            rest = {name: value for name, value in data.items() if name not in faulty}
            return kind.model_validate(rest, context=self.unit)
        except ValidationError:
            return None

    def _without_empty(self, kind: type[Form], data: dict[str, Any], key: str) -> dict[str, Any]:
        """Take out keys that were written without a value; only a whole section may be left empty."""
        empty = []
        for name, field in kind.model_fields.items():
            word = field.alias or name
            if word in data and data[word] is None and field.annotation is not Any and not field.is_required():
                help = "write a value, or leave out the key"
                self.error("empty-value", f"`{word}` has no value", _join(key, word), help)
                empty.append(word)
        return {name: value for name, value in data.items() if name not in empty}

    def section(self, kind: type[_F], data: Data, key: str) -> _F:
        """Read a mapping without needed keys; what is left out or empty has its defaults."""
        form = self.form(kind, {} if data is None else data, key)
        return form if form is not None else kind()

    def value(self, kind: TypeAdapter[_T], data: Data, key: str, wanted: str = "") -> _T | None:
        """Read a single value; None, with the mistake recorded, if it is not of its kind."""
        try:
            return kind.validate_python(data, context=self.unit)
        except ValidationError as error:
            details = error.errors(include_url=False)
            counts = [d for d in details if d["type"] in ("missing", "too_long")]
            for detail in counts[:1] or details:
                self._value_fault(detail, wanted, key)
            return None

    def items(self, data: Data, key: str, what: str) -> Iterator[tuple[str, Data]]:
        """The entries of a list with their paths; an empty value is an empty list."""
        if data is None:
            return
        if not isinstance(data, list):
            self._wrong_kind(data, key, f"a list of {what}, each after a `-`")
            return
        for index, item in enumerate(self._capped(data, key)):
            yield f"{key}.{index}", item

    def entries(self, data: Data, key: str, example: str) -> Iterator[tuple[str, str, Data]]:
        """Path, name and value of each entry of a mapping whose keys are the user's own names."""
        if data is None:
            return
        if not isinstance(data, dict):
            self._wrong_kind(data, key, f"a mapping such as `{example}`")
            return
        for name in self._capped(list(data), key):
            yield f"{key}.{name}", name, data[name]

    def _capped(self, entries: list[_T], key: str) -> list[_T]:
        """No more entries than anyone writes by hand, so that a strange file cannot take minutes."""
        if len(entries) > MOST_ENTRIES:
            message = f"`{key.rpartition('.')[2]}` has {len(entries)} entries, and {MOST_ENTRIES} is the most"
            self.error("too-many", message, key, "is this the right file?", at_key=True)
        return entries[:MOST_ENTRIES]

    def unknown_name(self, what: str, name: str, known: Sequence[str], key: str, *, at_key: bool = False) -> None:
        """Record a name that nothing in the file has."""
        message = f"there is no {what} named `{shown(name)}`"
        self.error("unknown-name", message, key, meant(name, known), at_key=at_key)

    def _wrong_kind(self, data: Data, key: str, wanted: str) -> None:
        kinds: dict[type, str] = {dict: "a mapping", list: "a list", str: "a single value"}
        found = kinds.get(type(data), "empty")
        short = re.split(r",| such as | with ", wanted)[0]
        name = key.rpartition(".")[2]
        where = "the file" if not key else f"this entry of `{key.split('.')[-2]}`" if name.isdigit() else f"`{name}`"
        self.error(
            "wrong-kind",
            f"{where} is {found}, not {short}",
            key,
            f"write {wanted}",
        )

    def _translate(self, kind: type[Form], details: list[ErrorDetails], key: str) -> None:
        known = known_keys(kind)
        missing = [str(d["loc"][0]) for d in details if d["type"] == "missing" and len(d["loc"]) == 1]
        told: list[str] = []
        for detail in details:
            name = str(detail["loc"][0])
            if detail["type"] == "extra_forbidden":
                near = nearest(name, [*missing, *known])
                # A misspelt key is both unknown and missing: one mistake, one message.
                missing = [word for word in missing if word != near]
                self._misspelt.update([_join(key, near)] if near else [])
                help = meant(name, [*missing, *known] if near is None else [near])
                self.error("unknown-key", f"unknown key `{shown(name)}`", _join(key, name), help, at_key=True)
            elif not (detail["type"] == "missing" and len(detail["loc"]) == 1) and name not in told:
                told += [name] if detail["type"] in ("missing", "too_long") else []
                self._value_fault(detail, known.get(name, ""), key)
        for name in missing:
            self.error("missing-key", f"`{name}` is missing", key, f"add `{name}`: {known[name]}")

    def _value_fault(self, detail: ErrorDetails, wanted: str, key: str) -> None:
        parts = [str(part) for part in detail["loc"]]
        path = ".".join([word for word in (key, *parts) if word])
        name = next(word for word in reversed(path.split(".")) if not word.isdigit())
        context: dict[str, Any] = detail.get("ctx", {})
        if "message" in context:
            self.error(detail["type"], f"`{name}`: {context['message']}", path, context["help"])
        elif detail["type"] in ("missing", "too_long"):
            whole = path.rpartition(".")[0] if detail["type"] == "missing" else path
            found = len(detail["input"])
            message = f"`{name}` has {found} value{'s' * (found != 1)} and needs {wanted.partition(',')[0]}"
            self.error("wrong-count", message, whole, f"write {wanted}")
        else:
            self._wrong_kind(detail["input"], path, wanted or "a list")


CONTRADICTIONS = ("readings-disagree", "tie-no-triangle", "sides-cannot-close", "turns-not-round")
"""Codes of the findings that say that tape readings contradict each other."""


def known_keys(kind: type[Form]) -> dict[str, str]:
    """The keys of a form as the file spells them, each with what it holds."""
    return {field.alias or name: field.description or "" for name, field in kind.model_fields.items()}


def _join(key: str, name: str) -> str:
    return f"{key}.{name}" if key else name
