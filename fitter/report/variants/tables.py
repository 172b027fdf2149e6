"""Variants of a plan as tables for the terminal, 80 columns wide."""

from __future__ import annotations

from collections.abc import Iterator

from rich.console import Console

from fitter.domain.designs import Design, design_of
from fitter.domain.growth import growths
from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.variants import Variant, Variants
from fitter.domain.wishes import FillWish
from fitter.report.heading import print_heading
from fitter.report.printing import print_findings, print_table, say
from fitter.report.tables import print_fit
from fitter.report.variants import growing, names, rows
from fitter.report.words import SAFETY, counted, headline, teller
from rooms.survey.wording import listed


def print_variants(console: Console, project: Project, found: Variants, denominator: int = 16) -> None:
    """Print all variants side by side, what a module takes, then each with what differs.

    Args:
        console: where to.
        project: as published.
        found: not a `fault`.
        denominator: finest fraction of an inch.
    """
    if found.fit.layout is None:
        print_fit(console, project, found.fit, denominator)
        return
    print_heading(console, project, verdict_line(found))
    if found.base is None:
        return
    _Printer(console, project, found, design_of(found.fit.layout), denominator).whole()


def verdict_line(found: Variants) -> str:
    """How the variants stand, with the verdict word first."""
    if found.base is None:
        return "unknown: stopped before the published design was built on open ground"
    built = [variant for variant in found.variants if variant.built]
    never = [variant for variant in found.variants if variant.verdict is Verdict.IMPOSSIBLE]
    told = f"{counted(len(built), 'variant')}, each checked and its frame proven whole"
    if never:
        told += f"; {len(never)} cannot be built"
    if found.interrupted:
        return f"found: stopped by you; {told}; the others were not reached"
    if found.verdict is Verdict.PROVEN:
        return f"proven: {told}"
    return f"found, not proven: time ran out; {told}"


def notes(project: Project, found: Variants) -> Iterator[str]:
    """What every number rests on."""
    yield (
        "Each is laid out on open level ground, with the leg room, the spans and the corner of the file. Costs are for "
        "somebody who has nothing on hand and buys all cushions and boards."
    )
    if project.wish.fill is not FillWish.NONE:
        yield "Nothing fills what a room would leave beyond the ends, since every reader's room leaves something else."
    if found.moved:
        yield (
            f"In the room of the file {listed(found.moved)} stand otherwise than on open ground, for what lies there, "
            "fills it or is on hand; the variants are held against the published design as it stands on open ground."
        )


class _Printer:
    def __init__(
        self, console: Console, project: Project, found: Variants, base: Design, denominator: int
    ) -> None:  # fmt: skip
        self._console, self._project, self._found, self._base = console, project, found, base
        self._tell = teller(project.unit, denominator)
        self._cut = teller(project.unit, denominator, feet=False)

    def whole(self) -> None:
        """Overview, steps, the author's room, each variant."""
        for line in notes(self._project, self._found):
            say(self._console, line)
        print_table(self._console, rows.OVERVIEW, rows.overview(self._found, self._base, self._tell))
        self._growths()
        print_table(self._console, rows.ROOM, rows.room(self._project, self._found, self._base, self._tell))
        for variant in self._found.every:
            if variant.built:
                self._variant(variant)
        print_findings(self._console, self._project.findings)
        self._console.print()
        self._console.print(f"{SAFETY}.")

    def _growths(self) -> None:
        if self._found.base is None or not self._found.base.built:
            return
        for growth in growths(self._project, self._found, self._base):
            self._console.print()
            for line in growing.sentences(growth, self._tell, self._cut):
                say(self._console, line)
            say(self._console, growing.LEGEND)
            print_table(self._console, growing.heads(growth), growing.rows(growth, self._tell, self._cut))

    def _variant(self, variant: Variant) -> None:
        base, change = self._found.base, variant.change
        assert base is not None, "variants come after the base"
        self._console.print()
        called = names.name(change, self._base)
        self._console.print(f"{variant.number}  {called}: {headline(variant.layout)}", style="bold")
        if change is not None:
            for line in names.explained(self._project, change, self._base):
                say(self._console, line)
        if base.built:
            self._differences(base, variant)

    def _differences(self, base: Variant, variant: Variant) -> None:
        """What is bought, and which sticks and boards are not the same; of the published design what it takes."""
        for line in rows.cushions(base, variant):
            say(self._console, line)
        say(self._console, rows.cost(base, variant))
        for line in rows.troubles(base, variant, self._tell, self._cut):
            say(self._console, line)
        told = list(rows.parts(base, variant, self._cut))
        if not told and variant is not base:
            say(self._console, "The same sticks as published, in number and length.")
        print_table(self._console, rows.PARTS, told)
        print_table(self._console, rows.BOARDS, rows.boards(base, variant, self._tell))
