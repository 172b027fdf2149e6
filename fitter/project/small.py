"""Sizes that are possible, but so small that another unit was most likely meant: cautions, no refusals."""

from __future__ import annotations

from dataclasses import dataclass

from fitter.domain.findings import Severity
from fitter.project.ledger import Ledger
from rooms.lengths import Length

SMALL_SOURCE = "common practice"


@dataclass(frozen=True)
class Least:
    """A size that is seldom gone below.

    Args:
        inches: for projects in inches and feet.
        metric: for metric ones.
    """

    inches: Length
    metric: Length

    def of(self, ledger: Ledger) -> Length:
        """The one that is round in the units of a file."""
        return self.inches if ledger.unit.imperial else self.metric


SEAT = Least(Length.inches(16), Length.millimetres(400))
"""Of a seat cushion, either way."""
LEGROOM = Least(Length.inches(12), Length.millimetres(300))
"""Before the seats; a shin and a foot are about as deep."""
WAY = Least(Length.inches(20), Length.millimetres(500))
"""Of a door, a gate or a walkway; shoulders are about as wide."""


def ask_small(ledger: Ledger, message: str, size: Length, least: Least, key: str) -> bool:
    """Ask about the unit where a size is below what is usual.

    Args:
        ledger: takes the caution.
        message: what is so small, with its size.
        size: of it.
        least: what is usual.
        key: where it stands.

    Returns:
        Whether it was asked.
    """
    usual = least.of(ledger)
    if not ledger.unit_known or size >= usual:
        return False
    told = f"{message}; less than {ledger.say(usual)} is unusual"
    ledger.remark("size-small", told, key, ledger.ask_unit, SMALL_SOURCE, severity=Severity.CAUTION)
    return True
