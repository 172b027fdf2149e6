"""What codes, standards and habit say of the layouts that are shown, beside what reading the file gave rise to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fitter.domain.findings import Finding, Severity
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.report.words import counted

_NEARER = ("flame-near", "route-narrow")
"""Remarks on what the file asks for, which findings on what a layout keeps stand for where there are any."""


def findings_told(project: Project, result: FitResult) -> tuple[Finding, ...]:
    """All that is to be told below the layouts, each once; where not all layouts have it, with those that do."""
    ranks: dict[Finding, list[int]] = {}
    for shown in result.layouts:
        for finding in shown.findings:
            ranks.setdefault(finding, []).append(shown.rank)
    known = {finding.key for finding, has in ranks.items() if len(has) == len(result.layouts)}
    asked = [f for f in project.findings if not (f.code in _NEARER and f.key in known)]
    return (*asked, *(_of(finding, has, len(result.layouts)) for finding, has in ranks.items()))


def _of(finding: Finding, has: list[int], layouts: int) -> Finding:
    if len(has) == layouts:
        return finding
    return replace(finding, message=f"{_layouts(has)}: {finding.message}")


def _layouts(ranks: list[int]) -> str:
    return f"layout{'s' * (len(ranks) > 1)} {', '.join(map(str, ranks))}"


def failed_lines(project: Project, result: FitResult) -> Iterator[str]:
    """Which layouts miss what `wish.strict` asks for; nothing where none does."""
    failed = [shown for shown in result.layouts if shown.failed]
    if not failed:
        return
    place = project.place("wish.strict")
    line = f" in {project.file}:{place.line}" if place else ""
    if len(result.layouts) == 1:
        checks = counted(len(failed[0].failed), "check")
        yield f"failed: {checks} that `wish.strict` asks for{line}, told below as `{Severity.ERROR}`"
        return
    passed = [shown.rank for shown in result.layouts if not shown.failed]
    kept = f"; {_layouts(passed)} keep{'s' * (len(passed) == 1)} them" if passed else ""
    yield f"failed: checks that `wish.strict` asks for{line}, by {_layouts([shown.rank for shown in failed])}{kept}"
