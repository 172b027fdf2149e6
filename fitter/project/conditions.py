"""How the cushions in the shed have kept: one word for all of a kind, or how many there are in each condition."""

from __future__ import annotations

from typing import Annotated

from pydantic import TypeAdapter

from fitter.domain.cushions import Condition, Conditions
from fitter.project.fields import Count, one_of, words_of
from fitter.project.forms import CushionForm
from fitter.project.ledger import Ledger
from fitter.project.words import listed, meant, plain, shown

_FORMS = "`good`, `worn` or `poor`, or how many of each, `{good: 3, worn: 1}`"
_WORD: TypeAdapter[Condition] = TypeAdapter(Annotated[Condition, one_of(words_of(Condition), _FORMS)])
_COUNT: TypeAdapter[int] = TypeAdapter(Count)


def read_conditions(ledger: Ledger, key: str, form: CushionForm) -> tuple[int | None, Conditions]:
    """How many of a kind are owned, and in which conditions.

    A table of conditions counts all that are owned, so that `own` may be left out beside it.

    Args:
        ledger: takes the mistakes.
        key: of the cushion.
        form: what is said of it.
    """
    said, at = form.condition, f"{key}.condition"
    if said is None:
        return form.own, ()
    if isinstance(said, dict):
        return _table(ledger, at, form)
    word = ledger.value(_WORD, said, at, _FORMS)
    if word is not None and form.own is None:
        message = f"cushion `{form.name}` has a condition, and no `own` says how many there are"
        ledger.error("condition-not-owned", message, at, "write `own`, or how many of each, `{good: 3, worn: 1}`")
    return form.own, ((word, form.own),) if word is not None and form.own else ()


def _table(ledger: Ledger, at: str, form: CushionForm) -> tuple[int | None, Conditions]:
    before = ledger.errors
    counts: dict[Condition, int] = {}
    for path, name, value in ledger.entries(form.condition, at, "good: 3"):
        condition = next((each for each in Condition if plain(each) == plain(name)), None)
        if condition is None:
            message = f"unknown condition `{shown(name)}`"
            ledger.error("unknown-word", message, path, meant(name, list(Condition)), at_key=True)
        elif condition in counts:
            ledger.error("named-twice", f"`{condition}` is there twice", path, "keep one of the two", at_key=True)
        elif (count := ledger.value(_COUNT, value, path)) is not None:
            counts[condition] = count
    if ledger.errors > before:
        return form.own, ()
    if not counts:
        ledger.error("empty-value", "`condition` names none", at, f"write {_FORMS}")
        return form.own, ()
    total = sum(counts.values())
    if form.own is not None and form.own != total:
        _told(ledger, at, form, counts, total)
        return form.own, ()
    return total, tuple((condition, counts[condition]) for condition in Condition if counts.get(condition))


def _told(ledger: Ledger, at: str, form: CushionForm, counts: dict[Condition, int], total: int) -> None:
    sums = " + ".join(f"{count} {condition}" for condition, count in counts.items())
    asked = f"cushion `{form.name}`: {sums} make {total}, and `own` says {form.own}"
    place = ledger.place(at.removesuffix("condition") + "own")
    line = f" in line {place.line}" if place is not None else ""
    if total > (form.own or 0):
        help = f"count them again, and correct `condition` or `own`{line}"
        ledger.error("more-than-owned", f"more in these conditions than owned: {asked}", at, help)
    else:
        rest = [str(each) for each in Condition if each not in counts]
        way = f"add those that are {listed(rest)}, or " if rest else ""
        help = f"{way}correct `own`{line}"
        ledger.error("fewer-than-owned", f"fewer in these conditions than owned: {asked}", at, help)
