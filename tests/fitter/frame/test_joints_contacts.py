"""Contacts of parts: against every pair of faces looked at, turned, with housings and mitres."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import combinations, pairwise
from random import Random

import pytest
from pairs import POST, R, mitred, part, rail, turned, units

from fitter.domain.woodwork import Housing, Part, Vector
from fitter.frame.contacts import contacts
from rooms.lengths import Length

COS, SIN = Fraction(12, 13), Fraction(5, 13)


def area(patches: tuple[tuple[Vector, ...], ...], normal: tuple[int, int, int]) -> Fraction:
    """Area of polygons times the normal's length squared, exactly."""
    total = Fraction(0)
    for ring in patches:
        first = ring[0]
        for p, q in pairwise(ring[1:]):
            a, b = ([x - y for x, y in zip(point, first, strict=True)] for point in (p, q))
            cross = (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
            total += Fraction(sum(x * n for x, n in zip(cross, normal, strict=True))) / 2
    return abs(total)


def spread(parts: tuple[Part, ...] | list[Part]) -> dict[tuple[int, int], float]:
    """How much area each two parts share."""
    found: dict[tuple[int, int], float] = {}
    for contact in contacts(parts):
        long = sum(n * n for n in contact.normal) ** 0.5
        pair = contact.first, contact.second
        found[pair] = found.get(pair, 0.0) + float(area(contact.patches, contact.normal)) / long
    return found


def random_boxes(seed: int, number: int = 40) -> list[Part]:
    """Blocks on a coarse grid, so that many of them touch; some overlap, which is no contact."""
    random = Random(seed)
    blocks = []
    for _ in range(number):
        low = [random.randint(0, 8) for _ in range(3)]
        high = [x + random.randint(1, 3) for x in low]
        blocks.append(part(R.CLEAT, tuple(map(str, (*low, *high))), *random.sample(range(3), 2)))  # type: ignore[arg-type]
    return blocks


def touching(one: Part, other: Part) -> int:
    """Area that two boxes share, by their sides alone; nil where they overlap or lie apart."""
    sides = [(min(c[k] for c in p.corners), max(c[k] for c in p.corners)) for k in range(3) for p in (one, other)]
    shared = [min(a[1], b[1]) - max(a[0], b[0]) for a, b in zip(sides[::2], sides[1::2], strict=True)]
    if min(shared) != 0 or sorted(shared)[1] <= 0:
        return 0
    return int(sorted(shared)[1] * sorted(shared)[2])


@pytest.mark.parametrize("seed", range(6))
def test_boxes_touch_as_their_sides_say(seed: int) -> None:
    parts = random_boxes(seed)
    wanted = {(i, j): shared for (i, a), (j, b) in combinations(enumerate(parts), 2) if (shared := touching(a, b))}
    assert len(wanted) > 20
    assert spread(parts) == wanted


@pytest.mark.parametrize("axis", range(3))
def test_turned_parts_touch_as_upright_ones_do(axis: int) -> None:
    parts = random_boxes(11)
    assert spread([turned(one, COS, SIN, axis) for one in parts]) == pytest.approx(spread(parts), rel=1e-12)


def test_the_normal_leads_from_the_first_part_into_the_second() -> None:
    (contact,) = contacts((POST, rail()))
    assert (contact.first, contact.second, contact.normal) == (0, 1, (1, 0, 0))
    (contact,) = contacts((rail(), POST))
    assert contact.normal == (-1, 0, 0)
    assert contact.patches == (
        tuple(
            (units("7/2"), units(y), units(z)) for y, z in (("0", "5"), ("3/2", "5"), ("3/2", "21/2"), ("0", "21/2"))
        ),
    )


def test_edges_and_corners_that_meet_are_no_contact() -> None:
    block = part(R.CLEAT, ("0", "0", "0", "1", "1", "1"), 0, 1)
    by_edge = part(R.CLEAT, ("1", "1", "0", "2", "2", "1"), 0, 1)
    by_corner = part(R.CLEAT, ("1", "1", "1", "2", "2", "2"), 0, 1)
    assert contacts((block, by_edge)) == ()
    assert contacts((block, by_corner)) == ()


def test_a_rail_in_a_housing_touches_its_bottom_its_end_and_its_side() -> None:
    # The post lies from y = -2 to 1 1/2; the rail's last half inch is let in from its top and its outer face.
    low = [Length(units(x)) for x in ("5", "3", "0")]
    high = [Length(units(x)) for x in ("12", "7/2", "3/2")]
    housed = part(R.SUPPORT_POST, ("0", "-2", "0", "7/2", "3/2", "21/2"), 2, 0)
    hole = Housing(low[0], high[0], low[1], high[1], Length(units("2")), Length(units("7/2")))
    housed = replace(housed, housings=(hole,))
    long = part(R.FRONT_RAIL, ("3", "0", "5", "40", "3/2", "21/2"), 0, 2)
    found = {contact.normal: area(contact.patches, contact.normal) for contact in contacts((housed, long))}
    square = units("1") ** 2
    assert found == {
        (0, 0, 1): Fraction(3, 4) * square,
        (1, 0, 0): Fraction(33, 4) * square,
        (0, 1, 0): Fraction(11, 4) * square,
    }


def test_mitred_pieces_touch_over_the_whole_mitre() -> None:
    upright = mitred(part(R.ARM_PIECE, ("0", "0", "0", "7/2", "7/2", "24"), 2, 1), low=True)
    across = mitred(part(R.ARM_PIECE, ("0", "0", "0", "7/2", "28", "7/2"), 1, 2), low=True)
    (contact,) = contacts((upright, across))
    assert contact.normal in ((0, 1, -1), (0, -1, 1))
    # 3 1/2 in by 3 1/2 times the root of two; the normal's length is the root of two too.
    assert area(contact.patches, contact.normal) == 2 * units("7/2") ** 2


def test_many_parts_in_a_row_are_found_each_once() -> None:
    row = [part(R.SEAT_SLAT, (str(i), "0", "0", str(i + 1), "20", "1"), 1, 0) for i in range(200)]
    assert [(contact.first, contact.second) for contact in contacts(row)] == [(i, i + 1) for i in range(199)]
