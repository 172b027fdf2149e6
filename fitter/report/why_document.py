"""Why nothing fits and what would make it fit, for a document."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.domain.requirements import Requirement
from fitter.domain.why import Change, Clash, Cure, Sought
from fitter.report.reason import reason
from fitter.report.why_words import headline
from fitter.report.words import source_place, teller


def why_entry(project: Project, result: FitResult) -> dict[str, Any]:
    """The `why` of an impossible project.

    Args:
        project: what was asked.
        result: impossible.

    Returns:
        `says`, `clash`, `headline`, `missing`, `clashes` with their steps, `cures`, `helpless`, `uninvolved` and
        `sought`; where it was not explained, or only in part, what is not known is empty.
    """
    why, tell = result.why, teller(project.unit)
    clashes = why.clashes if why else ()
    return {
        "says": reason(project, result, tell),
        "headline": headline(project, clashes[0], tell) if clashes else None,
        "clash": _facts(project, clashes[0].facts if clashes else result.clash),
        "missing": clashes[0].missing or None if clashes else None,
        "clashes": [_clash(project, clash) for clash in clashes],
        "cures": [cure_entry(project, cure) for cure in why.cures] if why else [],
        "helpless": list(why.helpless) if why else [],
        "uninvolved": [fact.id for fact in why.uninvolved] if why else [],
        "sought": str(why.sought if why else Sought.NOT),
    }


def _facts(project: Project, facts: Sequence[Requirement]) -> list[dict[str, Any]]:
    return [
        {
            "id": fact.id,
            "key": fact.key,
            "file": project.file,
            "line": _line(project, fact.key),
            "says": fact.says,
        }
        for fact in facts
    ]


def _line(project: Project, key: str) -> int | None:
    place = source_place(project, key)
    return place.line if place else None


def _clash(project: Project, clash: Clash) -> dict[str, Any]:
    steps = [{"premises": _facts(project, step.premises), "concludes": step.concludes or None} for step in clash.steps]
    return {"facts": [fact.id for fact in clash.facts], "steps": steps, "missing": clash.missing or None}


def cure_entry(project: Project, cure: Cure) -> dict[str, Any]:
    """A change that makes it fit, with what to write in the file for it."""
    return {
        "changes": [_change(project, change) for change in cure.changes],
        "says": cure.says,
        "ease": cure.ease.name.lower(),
        "smallest": cure.smallest,
        "pair": cure.pair,
        "caution": cure.caution or None,
        "seats": cure.seats,
    }


def _change(project: Project, change: Change) -> dict[str, Any]:
    entry: dict[str, Any] = {
        "key": change.key,
        "line": _line(project, change.key),
        "from": change.before or None,
        "to": change.after,
    }
    return {**entry, "flag": change.flag} if change.flag else entry
