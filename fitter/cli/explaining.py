"""`fitter fit` where nothing fits: what clashes as soon as it is known, then what would make it fit."""

from __future__ import annotations

import sys
from dataclasses import replace
from typing import TYPE_CHECKING

from fitter.cli.drawing import drawn
from fitter.cli.refusing import lines_of
from fitter.cli.trying import trying_line
from fitter.domain.clock import Clock
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.owned import Buying
from fitter.domain.project import Project
from fitter.domain.why import Clash, Sought
from fitter.report.document import fit_document, written
from fitter.report.words import teller
from fitter.workflow.explaining import Explained, Listener, explained

if TYPE_CHECKING:
    from fitter.cli.fitting import Call


def tell_why(call: Call, project: Project, found: FitResult, buying: Buying | None, clock: Clock) -> FitResult | None:
    """Work out why nothing fits, tell it and draw it.

    Args:
        call: what was asked.
        project: that is impossible.
        found: with its clash.
        buying: what buying cushions would bring; None where that was not asked.
        clock: the time for all.

    Returns:
        The result with what was worked out, or a `fault`; None where the drawing does not fit on its sheet.
    """
    told = _in_a_document if call.as_json else _on_the_terminal
    explanation = told(call, project, found, buying, clock)
    known = replace(found, why=explanation.why, interrupted=explanation.interrupted)
    if explanation.checked:
        from fitter.report.fault import bundle
        from fitter.report.terminal import aside

        wrong = replace(known, verdict=Verdict.FAULT, checked=explanation.checked, why=None)
        aside().print(bundle(wrong, lines_of(call.file)), soft_wrap=True)
        return wrong
    if call.folder is not None and known.why is not None and not _drawn(call, project, known, clock):
        return None
    return known


def _in_a_document(
    call: Call, project: Project, found: FitResult, buying: Buying | None, clock: Clock
) -> Explained:  # fmt: skip
    told = explained(project, _ids(found), clock.left, cured=call.cures)
    outcome = Verdict.FAULT if told.checked else found.verdict
    known = replace(found, verdict=outcome, why=told.why, interrupted=told.interrupted, checked=told.checked)
    print(written(fit_document(project, known, buying)))
    return told


def _on_the_terminal(
    call: Call, project: Project, found: FitResult, buying: Buying | None, clock: Clock
) -> Explained:  # fmt: skip
    # A document needs none of the terminal's libraries.
    from fitter.report.printing import print_findings
    from fitter.report.tables import print_buying, print_clashing, print_head
    from fitter.report.terminal import result
    from fitter.report.why import print_clash, print_cures

    console, tell = result(), teller(project.unit, call.denominator)
    print_head(console, project, found, tell)
    sys.stdout.flush()

    def clashes(clash: Clash) -> None:
        print_clash(console, project, clash, tell)
        sys.stdout.flush()

    with trying_line(silent=call.silent) as trying:
        told = explained(
            project,
            _ids(found),
            clock.left,
            cured=call.cures,
            listener=Listener(clashes, trying.update if trying else None),
        )
    if told.checked:
        return told
    if told.why is None:
        print_clashing(console, project, found, tell, _open_end(call, told))
    else:
        print_cures(console, project, told.why, tell, _open_end(call, told))
    if buying is not None:
        print_buying(console, project, buying)
    print_findings(console, project.findings)
    return told


def _ids(found: FitResult) -> tuple[str, ...]:
    return tuple(fact.id for fact in found.clash)


def _open_end(call: Call, told: Explained) -> str:
    """What to say where it was not all looked for what would help."""
    if not call.cures:
        return "What would make it fit was not looked for, as `--no-cures` asks."
    stopped = "Stopped by you" if told.interrupted else "Time ran out"
    if told.why is not None and told.why.sought is Sought.PART and told.why.cures:
        return f"{stopped} before all changes were tried: others may make it fit too."
    return f"{stopped} before it was known what would make it fit."


def _drawn(call: Call, project: Project, known: FitResult, clock: Clock) -> bool:
    """Write the picture and name its files; False, told on standard error, if the sheet is too small."""
    why, folder = known.why, call.folder
    assert why is not None, "asked for before"
    assert folder is not None, "asked for before"
    # Loads the picture library, which nobody should wait for who only wants the text.
    from fitter.workflow.why_picturing import write_why

    return drawn(lambda: write_why(project, why, folder, sheet=call.sheet, limit=clock.left))
