"""One number of a project file over a range: the file with that value changed, read again with all its checks."""

from __future__ import annotations

import re
from collections.abc import Sequence
from copy import copy
from dataclasses import dataclass
from fractions import Fraction

from fitter.domain.amounts import Amount, Quantity
from fitter.domain.project import Project
from fitter.project import project_of
from fitter.project.ledger import Ledger
from fitter.project.number_keys import Found, UnknownKeyError, find_key
from fitter.project.source import read_text
from fitter.project.tree import Data, Tree, read_tree
from fitter.project.units import read_units
from fitter.project.words import listed, nearest, shown
from fitter.project.written_numbers import VaryError, read_number, written_amount
from rooms.lengths import Unit

MOST_VALUES = 5000
"""Each of them is read with all checks of a file, which takes some hundredths of a second."""

_EXAMPLE = "write for example `--vary room.routes.0.width=30..48:1`"
_STEPS = {
    Quantity.COUNT: Fraction(1),
    Quantity.MONEY: Fraction(1, 100),
    Quantity.SHARE: Fraction(1, 100),
    Quantity.ANGLE: Fraction(1),
    Quantity.FALL: Fraction(1, 100),
}


@dataclass(frozen=True)
class Variable:
    """A number of a project file, and the values that it is to take.

    Args:
        tree: the file.
        unit: of bare numbers.
        found: the key.
        values: rising, all a step apart.
        step: between two values.
        written: what the file says there now; None where it says nothing.
    """

    tree: Tree
    unit: Unit
    found: Found
    values: tuple[Amount, ...]
    step: Amount
    written: str | None

    @property
    def key(self) -> str:
        """The key as findings write it."""
        return self.found.key

    @property
    def called(self) -> str:
        """The same with names in place of numbers in a list, where what stands there has a name."""
        told = []
        for n, step in enumerate(self.found.path):
            here = _below(self.tree.data, self.found.path[: n + 1])
            name = here.get("name") if step.isdigit() and isinstance(here, dict) else None
            told.append(shown(name) if isinstance(name, str) else step)
        return ".".join(told)

    def project(self, value: Amount) -> Project:
        """The project whose file has that value there.

        Raises:
            ProjectError: such a file cannot be used.
        """
        data = changed(self.tree.data, self.found.path, written_amount(value))
        tree = self.tree
        return project_of(Tree(tree.file, data, dict(tree.places), dict(tree.keys), list(tree.findings)))


def read_variable(path: str, asked: str) -> Variable:
    """Read what is to be varied.

    Args:
        path: of the project file.
        asked: `PATH=FROM..TO` or `PATH=FROM..TO:STEP`.

    Returns:
        The number with its values.

    Raises:
        ProjectError: the file is no YAML; whether it is a sound project is told value by value.
        VaryError: there is no such number, or no such range.
    """
    tree = read_tree(read_text(path), path)
    unit = _unit(tree)
    key, equals, span = asked.rpartition("=")
    if not equals or not key.strip():
        message = f"`{shown(asked)}` names no key and range"
        raise VaryError(message, "not-a-range", _EXAMPLE)
    found = _found(tree.data, key.strip())
    assert found.quantity is not None, "a key without a number has been refused"
    first, last, step = _range(span, found.quantity, unit)
    if last < first:
        message = f"`{shown(span)}` is an empty range: it ends before it begins"
        raise VaryError(message, "empty-range", "write the smaller value first")
    if step <= 0:
        message = f"`{shown(span)}` steps by nothing"
        raise VaryError(message, "no-step", "write a step above zero after the `:`, or leave it out")
    count = (last - first) // step + 1
    if count > MOST_VALUES:
        message = f"`{shown(span)}` has {count} values, and {MOST_VALUES} is the most"
        raise VaryError(message, "too-many-values", "write a larger step, or a shorter range")
    values = tuple(Amount(found.quantity, first + step * n) for n in range(int(count)))
    return Variable(tree, unit, found, values, Amount(found.quantity, step), _now(tree.data, found.path))


def _unit(tree: Tree) -> Unit:
    """What a bare number means; of a file that does not say it, every value is refused later."""
    if not isinstance(tree.data, dict):
        project_of(tree)
    ledger = Ledger(tree)
    read_units(ledger, tree.data.get("units") if isinstance(tree.data, dict) else None)
    return ledger.unit


def _found(data: Data, written: str) -> Found:
    try:
        found = find_key(data, written)
    except UnknownKeyError as error:
        raise _unknown(error, written) from None
    if found.quantity is None:
        here = _below(data, found.path)
        if isinstance(here, dict | list):
            message = f"`{found.key}` holds several values, not one number"
        elif isinstance(here, str):
            message = f"`{found.key}` is `{shown(here)}`, not a number"
        else:
            message = f"`{found.key}` is not a number"
        help = "name the key of a length, a count, a price, a share or an angle"
        raise VaryError(message, "not-a-number", help)
    above = found.path[:-1]
    if found.path[-1].isdigit() and not isinstance(_below(data, above), list):
        message = f"the file has no `{'.'.join(above)}` whose parts could vary"
        raise VaryError(message, "unknown-key", "write it in the file first, with all its values")
    # Seats may be asked for with a bare number, which then says the least.
    single = isinstance(_below(data, above), str) and found.key != "wish.seats.least"
    if single and found.key != "wish.seats.most":
        message = f"`{'.'.join(above)}` is one value in this file, without a `{found.path[-1]}` of its own"
        raise VaryError(message, "unknown-key", f"vary `{'.'.join(above)}` itself")
    return found


def _unknown(error: UnknownKeyError, written: str) -> VaryError:
    message = f"there is no key `{shown(written)}`"
    word = error.rest.split(".")[0]
    near = nearest(error.rest, error.known) or nearest(word, error.known)
    start = "".join(f"{step}." for step in error.path)
    if near is not None:
        after = error.rest[len(word) :] if nearest(word, [near]) else ""
        return VaryError(message, "unknown-key", f"did you mean `{start}{near}{after}`?")
    if not error.known:
        place = f"`{'.'.join(error.path)}`" if error.path else "the file"
        return VaryError(message, "unknown-key", f"{place} has no further keys")
    where = f"under `{start.rstrip('.')}` are" if start else "the file knows"
    return VaryError(message, "unknown-key", f"{where} {listed(error.known, 'and')}")


def _range(span: str, quantity: Quantity, unit: Unit) -> tuple[Fraction, Fraction, Fraction]:
    parts = re.fullmatch(r"(?P<first>.+?)\.\.(?P<last>[^:]+)(?::(?P<step>.*))?", span.strip())
    if parts is None:
        message = f"`{shown(span)}` is no range"
        raise VaryError(message, "not-a-range", f"{_EXAMPLE}: from, two points, to, and a step")
    first, last = (read_number(parts[end], quantity, unit) for end in ("first", "last"))
    if parts["step"] is None:
        usual = Fraction(unit.mark.units) if quantity is Quantity.LENGTH else _STEPS[quantity]
        return first, last, usual
    return first, last, read_number(parts["step"], quantity, unit)


def _below(data: Data, path: Sequence[str]) -> Data:
    for step in path:
        if isinstance(data, dict):
            data = data.get(step)
        elif isinstance(data, list) and step.isdigit() and int(step) < len(data):
            data = data[int(step)]
        else:
            return None
    return data


def _now(data: Data, path: Sequence[str]) -> str | None:
    here = _below(data, path)
    return here if isinstance(here, str) else None


def changed(data: Data, path: Sequence[str], text: Data) -> Data:
    """A copy with one value changed; mappings that are not there yet are made, all else is shared."""
    if not path:
        return text
    step, rest = path[0], path[1:]
    if isinstance(data, list):
        items = copy(data)
        items[int(step)] = changed(items[int(step)], rest, text)
        return items
    entries = dict(data) if isinstance(data, dict) else {}
    if isinstance(data, str) and step == "most":
        entries["least"] = data  # seats as a bare number say the least
    entries[step] = changed(entries.get(step), rest, text)
    return entries
