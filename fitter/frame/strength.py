"""What a wood screw holds, in pounds-force and inches: allowable values of the NDS, both parts of one wood.

NDS is the National Design Specification for Wood Construction, chapter 12. Local codes and licensed practice decide;
the values here are for cautions, not for design.
"""

from __future__ import annotations

from math import sqrt

from fitter.domain.evidence import Figure, Source, Status

FULL = 10
"""Diameters of penetration for the whole lateral value; less counts in proportion: NDS chapter 12, from memory."""
BRIEF = Figure(1.6, Source("NDS 2.3.2, load duration of ten minutes", Status.SECOND_HAND))
"""A push lasts minutes, not years."""
WET = Figure(0.7, Source("NDS Table 11.3.3, in service wet", Status.MEMORY))
"""Wood outdoors is wet at times."""

_YIELD = ((0.142, 100_000.0), (0.177, 90_000.0), (0.236, 80_000.0), (0.273, 70_000.0))
"""Bending yield strength Fyb in psi up to a diameter, inches: of #10 from the AWC solved examples, else from memory."""


def withdrawal(gravity: float, diameter: float, thread: float) -> float:
    """Allowable pull of a screw in side grain: W = 2850 G² D a inch of thread (NDS 12.2-2), lbf.

    Args:
        gravity: specific gravity G of the part that the thread bites.
        diameter: of the shank D, inches.
        thread: length of thread in it, inches.

    >>> round(withdrawal(0.45, 0.190, 1))
    110
    """
    return 2850 * gravity**2 * diameter * thread


def lateral(gravity: float, diameter: float, root: float, side: float, penetration: float) -> float:
    """Allowable load across a screw or nail in single shear, both parts alike: the least of the yield modes, lbf.

    Equations of NDS Table 12.3.1A with Re = 1; Fe = 16,600 G^1.84 psi below 1/4 in (from memory, agrees with the AWC
    solved examples at 0.50 and 0.55); Rd = 2.2 up to 0.17 in, then 10 D + 0.5.

    Args:
        gravity: specific gravity G of both parts.
        diameter: of the shank, inches; Rd and Fyb follow from it.
        root: diameter under the thread, which is what bends; of a nail its shank.
        side: thickness of the part under the head, inches.
        penetration: of the other part, inches.
    """
    bearing = 16_600 * gravity**1.84
    bending = next((psi for upto, psi in _YIELD if diameter <= upto), _YIELD[-1][1])
    reduced = 2.2 if diameter <= 0.17 else 10 * diameter + 0.5
    ratio, push = penetration / side, bearing * root
    bends = 2 * bending * root**2 / bearing
    k1 = (sqrt(1 + 2 * (1 + ratio + ratio**2) + ratio**2) - (1 + ratio)) / 2
    k2, k3 = (sqrt(4 + bends / thick**2) - 1 for thick in (penetration, side))
    modes = (
        push * penetration,
        push * side,
        k1 * push * side,
        k2 * push * penetration / 3,
        k3 * push * side / 3,
        root**2 * sqrt(bearing * bending / 3),
    )
    return float(min(1.0, penetration / (FULL * diameter)) * min(modes) / reduced)
