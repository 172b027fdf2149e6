"""`fitter variants`."""

from __future__ import annotations

import sys
from pathlib import Path

from fitter.cli.calls import ProjectCall
from fitter.cli.drawing import drawn
from fitter.cli.fitting import CODES, solved
from fitter.cli.refusing import lines_of, refuse
from fitter.cli.running import INTERRUPTED, WRONG
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.domain.variants import Variants
from fitter.project import ProjectError, read_project
from fitter.report.document import written
from fitter.report.variants.document import faults, variants_document
from fitter.workflow.varying_plan import variants


def variants_of(call: ProjectCall) -> int:
    """Read, solve, build every neighbour, tell and draw.

    Args:
        call: what was asked; its limit counts for the published layout, and again for all variants together.

    Returns:
        The exit code.
    """
    try:
        project = call.asked(read_project(call.file))
    except ProjectError as error:
        return refuse(error, as_json=call.as_json)
    fit = solved(project, call.limit, 1, silent=call.silent)
    found = Variants(fit, interrupted=True) if fit.interrupted else _varied(project, fit, call)
    _tell(call, project, found)
    drawable = found.verdict is not Verdict.FAULT and found.base is not None
    if drawable and call.folder is not None and not _drawn(call, project, found, call.folder):
        return WRONG
    return INTERRUPTED if found.interrupted else CODES[found.verdict]


def _varied(project: Project, fit: FitResult, call: ProjectCall) -> Variants:
    """The variants, with the number that is worked on where a terminal can show it."""
    if call.silent or not sys.stderr.isatty():
        return variants(project, fit, call.limit)
    from fitter.report.terminal import aside

    console = aside()
    if not console.is_terminal:  # a terminal that cannot be drawn on
        return variants(project, fit, call.limit)
    with console.status("building variants") as status:
        return variants(
            project, fit, call.limit, lambda number, last: status.update(f"building variant {number} of {last}")
        )


def _tell(call: ProjectCall, project: Project, found: Variants) -> None:
    if call.as_json:
        print(written(variants_document(project, found)))
    elif found.verdict is not Verdict.FAULT:
        # A document needs none of the terminal's libraries.
        from fitter.report.terminal import result
        from fitter.report.variants.tables import print_variants

        print_variants(result(), project, found, call.denominator)
    if found.verdict is Verdict.FAULT:
        from fitter.report.fault import bundle
        from fitter.report.terminal import aside

        wrong = [(variant.number, each) for variant in found.every for each in faults(variant)]
        if not wrong:
            aside().print(bundle(found.fit, lines_of(call.file)), soft_wrap=True)
            return
        head = "fault: a variant does not pass its checks; no variant is shown. This is our mistake."
        told = [f"  variant {number}: {each.code}: {each.message}" for number, each in wrong]
        text = "\n".join([head, "Please report it with all of the text below.", *told, *lines_of(call.file)])
        aside().print(text, soft_wrap=True)


def _drawn(call: ProjectCall, project: Project, found: Variants, folder: Path) -> bool:
    """Write the page and name its files; False, told on standard error, if the sheet is too small."""
    # Loads the picture library, which nobody should wait for who only wants the tables.
    from fitter.workflow.variants_picturing import write_variants

    return drawn(lambda: write_variants(project, found, folder, sheet=call.sheet))
