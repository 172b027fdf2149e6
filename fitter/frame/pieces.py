"""Which piece that is carried in each part belongs to, where the frame comes apart."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from fitter.domain.layout import Side
from fitter.domain.woodwork import Part
from fitter.frame.strips import Site, Strip


def in_pieces(site: Site, parts: Iterable[Part]) -> list[Part]:
    """The parts with the number of their piece: stretches of a run between split lines, joined over the corners."""
    numbers = _numbers(site)
    return [replace(part, piece=numbers[_stretch(site, part)]) for part in parts]


def _numbers(site: Site) -> dict[tuple[Side, int], int]:
    """Number of the piece of each stretch of each run, from 1 in the order of the runs."""
    stretches = [(strip.side, i) for strip in site.strips for i in range(len(strip.splits) + 1)]
    root = {stretch: stretch for stretch in stretches}
    for arm in site.arms:
        main = site.strip(Side.MAIN)
        at_main = (Side.MAIN, 0 if arm.side is Side.RIGHT else len(main.splits))
        # The stretches that hold the corner place are one piece.
        one, other = root[at_main], root[arm.side, 0]
        root = {stretch: one if found == other else found for stretch, found in root.items()}
    order = list(dict.fromkeys(root[stretch] for stretch in stretches))
    return {stretch: order.index(root[stretch]) + 1 for stretch in stretches}


def _stretch(site: Site, part: Part) -> tuple[Side, int]:
    strip = site.strip(part.run)
    middle = _middle(strip, part)
    return strip.side, sum(cut < middle for cut in strip.splits)


def _middle(strip: Strip, part: Part) -> float:
    """Half way along the run."""
    ends = [float(corner[strip.axis]) for corner in part.corners]
    return (min(ends) + max(ends)) / 2 - float(strip.spot(0, 0, 0)[strip.axis])
