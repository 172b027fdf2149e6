"""How stiffly two backs are held where their runs meet, as one number to compare corner treatments by."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import hypot

from fitter.domain.evidence import Source, Status
from fitter.domain.layout import Layout, Side
from fitter.domain.species import species
from fitter.domain.wishes import CornerKind
from fitter.domain.woodwork import Fastener, Fixing, Part, PartRole, Woodwork
from rooms.lengths import UNITS_PER_MM

SLIP_SOURCE = Source("EN 1995-1-1:2004, Table 7.1, screws: rho_m^1.5 d / 23", Status.SECOND_HAND)
"""The formula was seen in public code that transcribes the table."""

BACK = (PartRole.UPRIGHT, PartRole.BOTTOM_RAIL, PartRole.TOP_RAIL)
"""Parts of a back panel that anything at a corner is fastened to."""


@dataclass(frozen=True)
class CornerStiffness:
    """How stiff a corner is.

    Args:
        corner: the arm that meets the main run there.
        treatment: of the corner.
        stiffness: about the upright axis, N·mm/rad; an estimate to compare by, not a design value.
        holds: what the backs are fastened to, in words, such as `corner post`.
        fasteners: how many were counted.
    """

    corner: Side
    treatment: CornerKind
    stiffness: float
    holds: str
    fasteners: int


def corner_stiffness(woodwork: Woodwork, layout: Layout, wood: str) -> CornerStiffness | None:
    """How stiffly the backs are held at the weakest corner of a layout.

    K = Σ k_ser · r² over all fasteners above the deck that hold a back to what holds it at the corner: a tall post, the
    other back, the boards of an angle post. r is counted in plan from the centre of all these fasteners, each where it
    goes from one part into the other; k_ser = rho_m^1.5 · d / 23 in N/mm (`SLIP_SOURCE`), rho_m the density of the wood
    in kg/m3, d the diameter in mm. What the seat below does for the backs is left out: it is alike for all treatments.

    Args:
        woodwork: the frame with its joints.
        layout: what it is for.
        wood: name of the species, as in the project's `frame.species`.

    Returns:
        The corner of least stiffness, the right one of equals; None where no runs meet.

    Raises:
        KeyError: no such wood is known.

    >>> round(slip_modulus(420, 5))  # strength class C24: a mean density of 420 kg/m3
    1871
    """
    density = species(wood).density
    found = [_corner(woodwork, layout.corner, density, module.corner) for module in layout.corners if module.corner]
    return min((each for each in found if each), key=lambda each: each.stiffness, default=None)


def slip_modulus(density: float, diameter: float) -> float:
    """N/mm of one fastener in one shear plane, see `SLIP_SOURCE`; density in kg/m3, diameter in mm."""
    return float(density**1.5 * diameter / 23)


def rotation_stiffness(places: Sequence[tuple[float, float]], moduli: Sequence[float]) -> float:
    """Σ k r² of fasteners at places of the plan in mm, about their centre: N·mm/rad for moduli in N/mm.

    >>> rotation_stiffness([(0, 0), (60, 80)], [1000, 1000])  # r = 50 mm each
    5000000.0
    """
    if not places:
        return 0.0
    x, y = (sum(axis) / len(places) for axis in zip(*places, strict=True))
    return float(sum(k * hypot(a - x, b - y) ** 2 for (a, b), k in zip(places, moduli, strict=True)))


def _corner(woodwork: Woodwork, treatment: CornerKind | None, density: float, arm: Side) -> CornerStiffness | None:
    if treatment is None:
        return None
    holding = list(holders(woodwork, arm))
    places = [entry(woodwork.parts[fastener.into], fastener) for fastener in holding]
    moduli = [slip_modulus(density, float(fastener.diameter) / UNITS_PER_MM) for fastener in holding]
    stiff = rotation_stiffness([(x, y) for x, y, _ in places], moduli)
    return CornerStiffness(arm, treatment, stiff, _told(woodwork, holding), len(holding))


def holders(woodwork: Woodwork, arm: Side) -> Iterator[Fastener]:
    """The fasteners above the deck that hold a back to a post, to boards or to the other back at the corner of an arm.

    Args:
        woodwork: the frame.
        arm: that meets the main run there.
    """
    deck = woodwork.levels.deck.mm
    for joint in woodwork.joints:
        if _holds(woodwork.parts[joint.parts[0]], woodwork.parts[joint.parts[1]], arm):
            for fastener in joint.fasteners:
                if fastener.kind is not Fixing.GLUE and entry(woodwork.parts[fastener.into], fastener)[2] > deck:
                    yield fastener


def _holds(one: Part, other: Part, arm: Side) -> bool:
    """Whether one of them is of a back and the other of what holds that at the corner."""
    back, holder = (one, other) if one.role in BACK else (other, one)
    if back.role not in BACK:
        return False
    if holder.role in (PartRole.CORNER_POST, PartRole.CORNER_BOARD):
        return holder.run is arm
    return holder.role in BACK and {back.run, holder.run} == {Side.MAIN, arm}


def entry(part: Part, fastener: Fastener) -> tuple[float, float, float]:
    """Where a fastener comes into a part that is a plain cuboid, mm in the layout frame; its tip if it never does."""
    head, tip = ([float(x) for x in spot] for spot in (fastener.head, fastener.tip))
    share = 0.0
    sizes = (part.length.units, part.width.units, part.thickness.units)
    for axis, size in zip((part.along, part.across, part.through), sizes, strict=True):
        a, b = (
            sum(float(way) * (at - float(o)) for way, at, o in zip(axis, spot, part.origin, strict=True))
            for spot in (head, tip)
        )
        if a < 0 < b:
            share = max(share, -a / (b - a))
        elif b < size < a:
            share = max(share, (a - size) / (a - b))
    x, y, z = ((h + share * (t - h)) / UNITS_PER_MM for h, t in zip(head, tip, strict=True))
    return x, y, z


def _told(woodwork: Woodwork, holding: Sequence[Fastener]) -> str:
    """What the backs are fastened to, in words."""
    roles = {woodwork.parts[n].role for fastener in holding for n in (fastener.through, fastener.into)}
    names = [str(role) for role in (PartRole.CORNER_POST, PartRole.CORNER_BOARD) if role in roles]
    if any(
        woodwork.parts[fastener.through].role in BACK and woodwork.parts[fastener.into].role in BACK
        for fastener in holding
    ):
        names.append("each other")
    return " and ".join(names) or "nothing"
