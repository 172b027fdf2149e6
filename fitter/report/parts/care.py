"""What a maker has to be careful with before anything is sawn and carried, each with its source."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from fitter.domain.project import Project
from fitter.domain.woodwork import Part
from fitter.report.parts.batches import kilograms
from fitter.report.parts.weight import density, told_weight

LIFTED = (Fraction(23), "51 lb", "23 kg")
"""Load constant: what one person may lift at best. NIOSH Pub. 94-110 (rev. 2021), revised lifting equation."""


def cautions(project: Project, pieces: list[tuple[str, tuple[Part, ...]]]) -> Iterator[tuple[str, str]]:
    """What to be careful with, and where that is from.

    Args:
        project: whose wood it is.
        pieces: what is carried, with its name.
    """
    yield (
        "Saw: follow its maker's instructions, keep the guard on, clamp what is sawn, wear eye and ear protection. Saw "
        "one piece of each mark first and try it in its place.",
        "common practice",
    )
    yield (
        "Dust: saw and sand outdoors or with an extractor, and wear a mask; the dust of some woods, western redcedar "
        "among them, is worse than that of others.",
        "NIOSH recommended limit 1 mg/m³; ACGIH 0.5 mg/m³ for western redcedar",
    )
    yield (
        "Treated wood: gloves, mask and goggles while sawing, wash hands before eating, clean up the sawdust, never "
        "burn offcuts. Nothing here makes sure that wood or fasteners suit treated wood: ask where you buy them.",
        "EPA consumer information on treated wood",
    )
    heavy = [
        f"{name} {told_weight(project, cubic)}"
        for name, parts in pieces
        if kilograms(cubic := sum((part.volume for part in parts), Fraction(0)), density(project)) > LIFTED[0]
    ]
    limit = LIFTED[1] if project.unit.imperial else LIFTED[2]
    yield (
        f"Lifting: {limit} is the most that one person should lift even in the best posture"
        + (f"; get help or use a cart for: {', '.join(heavy)} (wood alone)." if heavy else "; no piece weighs more."),
        "NIOSH Pub. 94-110 (rev. 2021), load constant of the lifting equation",
    )
