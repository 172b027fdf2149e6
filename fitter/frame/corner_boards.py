"""The two flat boards of an angle post: they stand on the deck in a corner, on the faces of both backs."""

from __future__ import annotations

from collections.abc import Iterator

from fitter.domain.layout import Side
from fitter.domain.wishes import CornerKind
from fitter.domain.woodwork import Part, PartRole
from fitter.frame.sticks import Stick, stick
from fitter.frame.strips import Site


def corner_boards(site: Site) -> Iterator[Part]:
    """Of every corner: one along the main run's back, which reaches into the corner, then one along the arm's."""
    if site.layout.corner is not CornerKind.ANGLE_POST:
        return
    section = site.project.frame.angle
    thick, wide = site.thick(section), site.wide(section)
    z0, z1 = site.levels.deck.units, site.levels.back_top.units
    for arm in site.arms:
        main, low = site.strip(Side.MAIN), arm.side is Side.RIGHT
        for over, deep, axis, whose in (
            (wide, (0, thick), main.axis, "main run"),
            (thick, (thick, thick + wide), main.across, f"{arm.side} arm"),
        ):
            s0, s1 = (0, over) if low else (main.end - over, main.end)
            kind = Stick(
                PartRole.CORNER_BOARD, arm.side, section, "wide face to the cushion", f"on the back of the {whose}"
            )
            yield stick(kind, main.box(s0, s1, *deep, z0, z1), 2, axis)
