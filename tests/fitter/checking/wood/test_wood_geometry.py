"""The kernel of the proof on sticks made by hand: where solids lie, how deep in each other, and where they touch."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import numpy as np
import pytest
from framed_yards import framed, unjoined
from sticks import block, hole, mitre

from fitter.checking.wood.contacts import Contacts, contacts
from fitter.checking.wood.near import depths, neighbours
from fitter.checking.wood.solids import RINGS, solids
from fitter.domain.woodwork import Part

UNIT = 8128


def depth(*parts: Part) -> float:
    """How deep the deepest pieces of different parts lie in each other."""
    cut = solids(parts)
    one, other = neighbours(cut)
    return float(depths(cut, one, other).max(initial=-np.inf))


def touch(*parts: Part) -> Contacts:
    return contacts(solids(parts))


def test_boxes_apart_touching_and_in_each_other() -> None:
    base = block((0, 0, 0), (10, 4, 2))
    assert depth(base, block((0, 0, 3), (10, 4, 2))) == -np.inf
    assert depth(base, block((0, 0, 2), (10, 4, 2))) == pytest.approx(0, abs=1e-9)
    assert depth(base, block((9, 1, "7/4"), (10, 4, 2))) == pytest.approx(0.25)


def test_mitred_ends_meet_without_lying_in_each_other() -> None:
    """The boxes around two mitred pieces share a square; the pieces share their slanted ends only."""
    one = block((0, 0, 0), (10, 2, 1), cuts=(mitre(2), mitre(0)))
    # The other's end slants the other way: it fills the corner that the first one leaves.
    other = block((-8, 0, 0), (10, 2, 1), cuts=(mitre(0), mitre(2, low=False)))
    assert depth(one, other) == pytest.approx(0, abs=1e-9)
    found = touch(one, other)
    assert found.area == pytest.approx([np.sqrt(8), np.sqrt(8)])
    assert sorted(found.face.tolist()) == [0, 1]
    assert depth(one, block(("-31/4", 0, 0), (10, 2, 1), cuts=(mitre(0), mitre(2, low=False)))) == pytest.approx(
        0.25 / np.sqrt(2)
    )


def test_tilted_sticks() -> None:
    """A stick that leans rests its lower edge on a floor, and lies flat against another that leans alike."""
    floor, leaning = block((0, -5, -1), (10, 20, 1)), block((0, 0, 0), (10, 5, 1), tilted=True)
    assert depth(floor, leaning) == pytest.approx(0, abs=1e-9)
    assert len(touch(floor, leaning).one) == 0
    # One inch along its own thickness: (-3/5, 4/5).
    other = block((2, "-3/5", "4/5"), (4, 5, 1), tilted=True)
    assert touch(leaning, other).area == pytest.approx([20, 20], abs=1e-3)
    assert depth(leaning, other) == pytest.approx(0, abs=2e-4)
    assert depth(leaning, block((2, 1, 0), (4, 2, 1))) > 0.1


def test_edge_against_edge_needs_crossed_edges() -> None:
    """Two bars on their ridges cross, one over the other: no face parts them, only the way square to both ridges."""
    half = np.sqrt(0.5)
    rolled = np.array([[1, 0, 0], [0, half, -half], [0, half, half]])
    crossed = np.array([[0.0, -1, 0], [1, 0, 0], [0, 0, 1]]) @ rolled
    plain = solids((block((-5, "-1/2", "-1/2"), (10, 1, 1)), block((-5, "-1/2", "-1/2"), (10, 1, 1))))
    for height, deep in ((1.5, -0.0858), (1.4, 0.0142)):
        above = plain.corners[1] @ crossed.T + np.array([0, 0, height])
        corners = np.stack([plain.corners[0] @ rolled.T, above])
        moved = replace(plain, corners=corners, axes=np.stack([rolled.T, crossed.T]))
        assert depths(moved, np.array([0]), np.array([1]))[0] == pytest.approx(deep, abs=1e-4)


def test_depth_is_that_of_a_sample_of_points() -> None:
    """Random pairs: where any of many points inside one lies inside the other, they are told to lie in each other."""
    random = Random("depths")
    for _ in range(200):
        at = tuple(random.randint(-3, 3) for _ in range(3))
        one = block((0, 0, 0), (4, 3, 2), cuts=(mitre(random.choice((0, 1, 2))), mitre(1, low=False)))
        other = block(at, (3, 4, 1), tilted=True, cuts=(mitre(0), mitre(random.choice((0, 2)))))
        cut = solids((one, other))
        weights = np.random.default_rng(random.randint(0, 9999)).dirichlet(np.ones(8), 3000)
        points = weights @ cut.corners[0]
        inside = (np.einsum("nk,fk->nf", points, cut.normals[1]) - cut.offsets[1]).max(axis=1) < -0.05
        shared = depths(cut, np.array([0]), np.array([1]))[0]
        assert not inside.any() or shared > 0


def test_a_housing_takes_a_rail() -> None:
    """A post with a housing: the rail in it touches the floor of the housing with its end, and lies in nothing."""
    post = block((0, 0, 0), (12, 3, 3), housings=(hole(4, 12, "5/2", 3, 0, "3/2"),))
    rail = block((4, "5/2", 0), (8, 6, "3/2"))
    assert depth(post, rail) == pytest.approx(0, abs=1e-9)
    found = touch(post, rail)
    mine = found.one == 0
    assert sum(found.area[mine]) == pytest.approx(8 * 1.5 + 8 * 0.5 + 0.5 * 1.5)
    assert set(found.face[mine].tolist()) == {-1}
    assert set(found.face[~mine].tolist()) == {0, 2, 5}
    assert depth(block((0, 0, 0), (12, 3, 3)), rail) == pytest.approx(0.5)


def test_contacts_in_the_axes_of_a_part() -> None:
    slat, cleat = block((0, 0, 1), (10, 4, 1)), block((1, 1, -1), (3, 2, 2))
    found = touch(slat, cleat)
    assert found.one.tolist() == [0, 1]
    assert found.face.tolist() == [4, 5]
    assert found.low[0] == pytest.approx([1, 1, 0])
    assert found.high[0] == pytest.approx([4, 3, 0])
    assert found.area == pytest.approx([6, 6])
    assert found.normal[0] == pytest.approx([0, 0, -1])
    assert found.pairs == {(0, 1): pytest.approx(6)}


def test_edges_that_meet_are_no_contact() -> None:
    assert len(touch(block((0, 0, 0), (4, 4, 4)), block((0, 4, 4), (4, 4, 4))).one) == 0


@pytest.mark.parametrize("seed", [2, 6, 16, 24])
def test_corners_are_those_that_parts_tell(seed: int) -> None:
    """Worked out apart from the parts' own corners, in floats."""
    frame = unjoined(framed(seed))
    told = [[[float(x) / UNIT for x in corner] for corner in piece] for part in frame.parts for piece in part.pieces]
    assert sum(len(part.housings) for part in frame.parts) > 0 or seed in (2, 6)
    assert np.abs(np.array(told) - frame.solids.corners).max() < 1e-9


@pytest.mark.parametrize("seed", [2, 4, 16])
def test_neighbours_are_all_pairs_that_touch(seed: int) -> None:
    """The index over the plan finds what comparing everything with everything finds."""
    cut = unjoined(framed(seed)).solids
    gap = np.maximum(cut.low[:, None], cut.low[None]) - np.minimum(cut.high[:, None], cut.high[None])
    near = (gap.max(axis=2) <= 1e-3) & (cut.part[:, None] != cut.part[None])
    found = set(zip(*(x.tolist() for x in neighbours(cut)), strict=True))
    assert {(a, b) for a, b in zip(*(x.tolist() for x in np.nonzero(near)), strict=True) if a < b} <= found


def test_a_nothing_left_part_is_refused() -> None:
    with pytest.raises(ValueError, match="nothing is left"):
        solids((block((0, 0, 0), (4, 4, 4), housings=(hole(0, 4, 0, 4, 0, 4),)),))


def test_normals_point_outward() -> None:
    cut = solids((block((0, 0, 0), (4, 2, 1), cuts=(mitre(1), mitre(1))),))
    middle = cut.corners[0].mean(axis=0)
    out = np.einsum("fk,fk->f", cut.normals[0], cut.corners[0][RINGS].mean(axis=1) - middle)
    assert (out > 0).all()
