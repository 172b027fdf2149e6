"""Why nothing fits and what would make it fit, as text for the terminal, 80 columns wide."""

from __future__ import annotations

from collections.abc import Iterator

from rich.console import Console

from fitter.domain.project import Project
from fitter.domain.why import Change, Clash, Cure, Sought, Step, Why
from fitter.report.paragraphs import beside, paragraph, show, some
from fitter.report.why_words import headline, helpless, premises, stated, uninvolved
from fitter.report.words import Teller


def print_clash(console: Console, project: Project, clash: Clash, tell: Teller) -> None:
    """Print what clashes: what was wanted and what is missing, then each step to it.

    Args:
        console: where to.
        project: what was asked.
        clash: with its steps.
        tell: writes lengths.
    """
    show(console, ["", *paragraph(headline(project, clash, tell), console.width)])
    _print_steps(console, project, clash, tell)


def _print_steps(console: Console, project: Project, clash: Clash, tell: Teller) -> None:
    steps = clash.steps or (Step(clash.facts, "these cannot all hold"),)
    for n, step in enumerate(steps):
        last = n == len(steps) - 1
        show(console, ["", *_step_lines(project, step, tell, console.width)])
        if last and clash.missing:
            if step.concludes:
                show(console, [""])
            show(console, paragraph(f"So {clash.missing}. Each step is proven.", console.width, "  "))


def _step_lines(project: Project, step: Step, tell: Teller, width: int) -> Iterator[str]:
    """The premises, each beside where it is stated, and what follows from them."""
    for n, (clause, place) in enumerate(premises(project, step.premises, tell)):
        first = "Since" if step.concludes else "But"
        yield from beside(f"  {first if n == 0 else 'and'} {clause}", place, width, "    ")
    if step.concludes:
        yield from paragraph(f"so {step.concludes}.", width, "    ")


def print_cures(console: Console, project: Project, why: Why, tell: Teller, open_end: str = "") -> None:
    """Print what would make it fit, what would not help, and what is not involved.

    Args:
        console: where to.
        project: what was asked.
        why: all that is known.
        tell: writes lengths.
        open_end: what to say where cures were not all looked for.
    """
    for more in why.clashes[1:]:
        show(console, ["", *paragraph("And these clash besides:", console.width)])
        _print_steps(console, project, more, tell)
    if why.cures:
        pairs = why.cures[0].pair
        show(console, ["", *paragraph(_heading(why, pairs=pairs), console.width)])
        every = pairs or all(cure.smallest for cure in why.cures)
        for number, cure in enumerate(why.cures, start=1):
            less = "" if cure.smallest or every else " (a smaller change may do too)"
            show(console, ["", *_cure_lines(project, number, cure, less, console.width)])
    elif why.sought is Sought.ALL:
        none = "None of the changes that were tried makes it fit, neither alone nor with another one."
        show(console, ["", *paragraph(none, console.width)])
    _print_rest(console, project, why, open_end)


def _heading(why: Why, *, pairs: bool) -> str:
    counted = "Each was tried in a copy of the file, solved and checked with all else as it is"
    if pairs:
        return f"No single change that was tried makes it fit, but any one of these pairs does. {counted}:"
    if all(cure.smallest for cure in why.cures):
        return f"Any one of these changes makes it fit. {counted}; a smaller one is not enough:"
    return f"Any one of these changes makes it fit. {counted}; a smaller one is not enough, unless so marked:"


def _cure_lines(project: Project, number: int, cure: Cure, less: str, width: int) -> Iterator[str]:
    lead = f"{number:3}. "
    blank = " " * len(lead)
    yield from paragraph(f"{lead}{cure.says}{less}", width, blank, first="")
    for change in cure.changes:
        yield from beside(f"{blank}{_changed(change)}", _place(project, change), width, f"{blank}  ")
    if cure.caution:
        yield from paragraph(f"{blank}caution: {cure.caution}", width, f"{blank}  ", first="")


def _changed(change: Change) -> str:
    if change.flag:
        return f"call it with `{change.flag}`"
    return f"{change.key}: {change.before} -> {change.after}" if change.before else f"{change.key}: {change.after}"


def _place(project: Project, change: Change) -> str:
    place = stated(project, [change.key])
    return "to be added" if place == "default" else place


def _print_rest(console: Console, project: Project, why: Why, open_end: str) -> None:
    if why.sought is not Sought.ALL and open_end:
        show(console, ["", *paragraph(open_end, console.width)])
    if names := helpless(why.helpless):
        told = f"Tried alone, {'this does' if len(names) == 1 else 'these do'} not help: {some(names)}."
        show(console, ["", *paragraph(told, console.width)])
    if why.sought is Sought.ALL and (names := uninvolved(project, why.uninvolved)):
        show(console, ["", *paragraph(f"Not involved: {some(names)}.", console.width)])
