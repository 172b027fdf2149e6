"""Whether backs that hold each other at a corner stand a push at their top: there no post does it for them."""

from __future__ import annotations

from dataclasses import dataclass
from math import dist

from fitter.domain.evidence import Figure, Source, Status
from fitter.domain.layout import Layout, Side
from fitter.domain.species import species
from fitter.domain.woodwork import Fastener, PartRole, Woodwork
from fitter.frame.corner_hold import entry, holders
from fitter.frame.fasteners import sold
from fitter.frame.strength import BRIEF, WET, lateral, withdrawal
from rooms.lengths import UNITS_PER_INCH

PUSH = Figure(250.0, Source("2010 ADA Standards, 903.6, at any point of a bench, a benchmark", Status.VERIFIED))
"""Pounds-force that the top of a back is pushed with; the standard names seat, fasteners and supports."""

_MM = 25.4
"""In an inch."""
_THREAD = 2 / 3
"""Share of a wood screw's length that has a thread: common practice."""


@dataclass(frozen=True)
class Racking:
    """How a push at the top of a back comes on the screws of a corner.

    Args:
        corner: the arm that meets the main run there.
        load: lbf on the uppermost screw, drawn out by a push on the main run's back or bent by one on the arm's.
        drawn: what it may be drawn with, lbf.
        bent: what it may be loaded with from the side, lbf.
        screws: above the deck.
    """

    corner: Side
    load: float
    drawn: float
    bent: float
    screws: int

    @property
    def limit(self) -> float:
        """What any of them may be loaded with, lbf."""
        return min(self.drawn, self.bent)

    @property
    def holds(self) -> bool:
        """Whether no screw is overloaded."""
        return self.load <= self.limit


def racking(woodwork: Woodwork, layout: Layout, wood: str, *, imperial: bool) -> tuple[Racking, ...]:
    """The push at the top of a back on the screws between both uprights, for each corner without a tall post.

    The back is taken to turn about its foot at the deck, and the row of screws alone to hold it: with screws at heights
    z above the deck and the top at h, the uppermost takes F · h · z_max / Σ z². It holds as allowed by `strength`,
    times 1.6 for a brief load and 0.7 for wet wood. What bolts below the deck and boards of an angle post do besides is
    left out.

    Args:
        woodwork: the frame with its joints.
        layout: what it is for.
        wood: name of the species.
        imperial: whether screws come in inches.

    Returns:
        In the order of the corners; none where a tall post stands.
    """
    if layout.corner is None or layout.corner.tall:
        return ()
    return tuple(
        _corner(woodwork, module.corner, wood, imperial) for module in layout.corners if module.corner is not None
    )


def _corner(woodwork: Woodwork, arm: Side, wood: str, imperial: bool) -> Racking:
    parts, deck = woodwork.parts, float(woodwork.levels.deck.mm)
    row = [
        fastener
        for fastener in holders(woodwork, arm)
        if parts[fastener.through].role is parts[fastener.into].role is PartRole.UPRIGHT
    ]
    heights = [(entry(parts[fastener.into], fastener)[2] - deck) / _MM for fastener in row]
    if not heights:
        return Racking(arm, PUSH.value, 0.0, 0.0, 0)
    top = (float(woodwork.levels.back_top.mm) - deck) / _MM
    load = PUSH.value * top * max(heights) / sum(height**2 for height in heights)
    gravity = _gravity(wood)
    limits = [_limits(fastener, entry(parts[fastener.into], fastener), gravity, imperial) for fastener in row]
    factor = BRIEF.value * WET.value
    drawn, bent = (factor * min(limit) for limit in zip(*limits, strict=True))
    return Racking(arm, load, drawn, bent, len(row))


def _gravity(wood: str) -> float:
    """Specific gravity for fasteners: of the group that the wood is sold in, else its own."""
    known = species(wood)
    return known.design.gravity.value if known.design else known.gravity.value


def _limits(
    screw: Fastener, entered: tuple[float, float, float], gravity: float, imperial: bool
) -> tuple[float, float]:
    """What a screw may be drawn with and loaded with from the side, lbf."""
    head, tip = ([float(x) / UNITS_PER_INCH for x in spot] for spot in (screw.head, screw.tip))
    met = [x / _MM for x in entered]
    side, deep = dist(head, met), dist(met, tip)
    diameter = float(screw.diameter) / UNITS_PER_INCH
    roots = {size.name: size.root for size in sold(screw.kind, imperial=imperial)}
    root = float(roots[screw.size]) / UNITS_PER_INCH
    thread = min(deep, _THREAD * dist(head, tip))
    return withdrawal(gravity, diameter, thread), lateral(gravity, diameter, root, side, deep)
