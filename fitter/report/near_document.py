"""What the next seat would cost, for a document."""

from __future__ import annotations

from typing import Any

from fitter.domain.near import NearMiss, NextSeat
from fitter.domain.project import Project
from fitter.report.why_document import cure_entry


def near_entries(project: Project, near: NextSeat | None) -> dict[str, Any]:
    """The `near` of a project that fits, and how far it was looked for.

    Args:
        project: what was asked.
        near: what was found; None where it was not looked for.

    Returns:
        `near`, one entry for each change, and `next_seat` with what was tried besides.
    """
    if near is None:
        return {"near": [], "next_seat": None}
    return {
        "near": [_entry(project, miss) for miss in near.misses],
        "next_seat": {
            "seats": near.seats,
            "looked": str(near.looked),
            "sought": str(near.sought),
            "helpless": list(near.helpless),
            "unsettled": list(near.unsettled),
        },
    }


def _entry(project: Project, miss: NearMiss) -> dict[str, Any]:
    return {**cure_entry(project, miss.change), "seats": miss.seats}
