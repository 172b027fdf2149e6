"""The rows of each table of variants."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fitter.domain.designs import Design
from fitter.domain.findings import Severity
from fitter.domain.part_changes import RoleChange, Stick, part_changes
from fitter.domain.project import Project
from fitter.domain.spending import more_for_boards, more_for_cushions, more_in_all
from fitter.domain.variants import Variant, Variants
from fitter.report.parts.rows import plural
from fitter.report.sawing.rows import lacking
from fitter.report.variants.names import (
    cents,
    here,
    name,
    signed,
    signed_more,
    total,
    unbuilt,
)
from fitter.report.words import Teller
from rooms.survey.wording import listed

Row = tuple[str, ...]
OVERVIEW = ("#", "variant", "length", "depth", "seats", "cost", "against 0")
ROOM = ("#", "variant", "fits the room of the file")
PARTS = ("part", "count", "change", "how long")
BOARDS = ("board", "length", "pieces", "change")


def overview(found: Variants, base: Design, tell: Teller) -> Iterator[Row]:
    """One row for each variant that is built, the published design first."""
    assert found.base is not None, "there is a base"
    against = [_against(found.base, variant) for variant in found.every]
    width = max(map(len, against))
    for variant, more in zip(found.every, against, strict=True):
        called = name(variant.change, base)
        if not variant.built:
            yield str(variant.number), called, "", "", "", "not built", ""
            continue
        length, depth = variant.size
        seats = str(variant.layout.seats)
        yield str(variant.number), called, tell(length), tell(depth), seats, total(variant.spent), f"{more:>{width}}"


def _against(base: Variant, variant: Variant) -> str:
    if variant.number == 0 or not (base.built and variant.built):
        return ""
    return signed_more(more_in_all(base.spent, variant.spent))


def room(project: Project, found: Variants, base: Design, tell: Teller) -> Iterator[Row]:
    """Whether each variant stands in the author's room; why not, or why it cannot be built at all."""
    for variant in found.variants:
        told = here(project, variant, tell) if variant.built else unbuilt(variant)
        yield str(variant.number), name(variant.change, base), told


def parts(base: Variant, variant: Variant, cut: Teller) -> Iterator[Row]:
    """One row for each role whose sticks differ."""
    for change in part_changes(base.parts, variant.parts):
        count = str(change.after)
        yield plural(change.role), count, signed(change.after - change.before), lengths(change, cut)


def lengths(change: RoleChange, cut: Teller) -> str:
    """Which lengths a role has otherwise."""
    if change.resized:
        return ", ".join(
            f"{each.count} of {cut(each.before)} become{'s' if each.count == 1 else ''} {cut(each.after)}"
            for each in change.resized
        )
    gone = [f"-{count} of {_size(stick, change, cut)}" for count, stick in change.gone]
    come = [f"+{count} of {_size(stick, change, cut)}" for count, stick in change.come]
    return ", ".join((*gone, *come))


def _size(stick: Stick, change: RoleChange, cut: Teller) -> str:
    """The length of a stick; its width too where sticks of one role differ in that."""
    _, width, thickness, length = stick
    every = [each for _, each in (*change.gone, *change.come)]
    told = cut(length)
    if len({each[1] for each in every}) > 1:
        told += f" × {cut(width)}"
    if len({each[2] for each in every}) > 1:
        told += f" × {cut(thickness)}"
    return told


def boards(base: Variant, variant: Variant, tell: Teller) -> Iterator[Row]:
    """One row for each kind of board that either takes."""
    old, new = base.bought, variant.bought
    kinds = [*old, *(kind for kind in new if kind not in old)]
    sections = list(dict.fromkeys(section for section, _ in kinds))
    for section, length in sorted(kinds, key=lambda kind: (sections.index(kind[0]), kind[1].units)):
        before, after = old[section, length], new[section, length]
        yield section, tell(length), str(after), "" if variant is base else signed(after - before)


def cushions(base: Variant, variant: Variant) -> Iterator[str]:
    """Of each kind that either takes: seat and back cushions, and what the author would have to buy."""
    old = {kind.name: kind for kind in base.cushions}
    for kind in variant.cushions:
        before = old.pop(kind.name, None)
        seats, backs = (before.seats, before.backs) if before else (0, 0)
        told = f"{kind.name}: {_changed(kind.seats, seats, 'seat')}"
        if kind.backs or backs:
            told += f", {_changed(kind.backs, backs, 'back')}"
        if kind.own:
            told += f"; {kind.buy} to buy with the {kind.own} that the file has on hand"
        yield told
    for kind in old.values():
        yield f"{kind.name}: none (-{kind.seats})"


def _changed(after: int, before: int, which: str) -> str:
    told = f"{after} {which} cushion{'' if after == 1 else 's'}"
    return told if after == before else f"{told} ({signed(after - before)})"


def troubles(base: Variant, variant: Variant, tell: Teller, cut: Teller) -> Iterator[str]:
    """What keeps a variant from being built or planned as asked, as far as that is not so of the published design."""
    known = set(_troubles(base, tell, cut)) if variant is not base else set()
    for told in _troubles(variant, tell, cut):
        if told not in known:
            yield told


def _troubles(variant: Variant, tell: Teller, cut: Teller) -> Iterator[str]:
    woodwork = variant.boards.framed.woodwork
    for finding in woodwork.findings if woodwork else ():
        if finding.severity is Severity.ERROR:
            yield f"Not as asked: {finding.message}."
    for section in variant.boards.sections:
        if section.stocks and not section.boards:
            yield from (
                f"Not planned: {told}." for told in lacking(replace(variant.boards, sections=(section,)), tell, cut)
            )


def cost(base: Variant, variant: Variant) -> str:
    """Boards, cushions and both together, each with its difference."""
    old, new = base.spent, variant.spent
    rows = (
        ("boards", new.boards, more_for_boards(old, new)),
        ("cushions", new.cushions, more_for_cushions(old, new)),
        ("together", new.total, more_in_all(old, new)),
    )
    told = [
        f"{what} {cents(amount)}" + ("" if variant is base else f" ({signed_more(more)})")
        for what, amount, more in rows
        if amount is not None
    ]
    lacking = [*new.wood, *(f"cushion {name}" for name in new.kinds)]
    lacks = f"; without {listed(lacking)}, whose price is not known" if lacking else ""
    return f"Cost: {', '.join(told)}{lacks}." if told else "Cost: no price is known."
