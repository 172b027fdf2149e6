"""Numbers that a project rests on though its file does not say them, each with where it comes from."""

from __future__ import annotations

from dataclasses import dataclass

from fitter.domain.benchmarks import Weight
from fitter.domain.evidence import Source
from rooms.lengths import Length


@dataclass(frozen=True)
class Told:
    """One number.

    Args:
        key: that would say it in the file; empty for what a layout is only held against.
        says: what it is, in a few words.
        value: a length, or what else stands there, in words.
        source: the document, and how the number is known.
        weight: what it asks of someone who builds at home.
    """

    key: str
    says: str
    value: Length | str
    source: Source
    weight: Weight
