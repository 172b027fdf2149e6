"""Solids of frames against a general mesh library: closed, as voluminous as told, their middles where they are."""

from __future__ import annotations

import sys
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import trimesh

sys.path.append(str(Path(__file__).parents[1] / "fitter" / "checking" / "wood"))

from framed_yards import framed, unjoined
from hand_built import ANGLE, LEFT, OUTSIDE, RIGHT, TABLE
from yards import ell, u

from fitter.checking.wood.solids import RINGS, solids
from fitter.domain.woodwork import Part

YARDS = {"right L": ell(OUTSIDE, RIGHT), "left L": ell(TABLE, LEFT), "U": u(TABLE), "angled L": ell(ANGLE, RIGHT)}
YARDS |= {f"frame {seed}": framed(seed) for seed in (2, 4, 6, 16, 20, 24)}


def mesh(part: Part) -> trimesh.Trimesh:
    """The faces that a part tells of, in inches."""
    points, faces = part.mesh
    triangles = [(face[0], b, c) for face in faces for b, c in pairwise(face[1:])]
    places = np.array([[float(x) / 8128 for x in point] for point in points])
    return trimesh.Trimesh(places, triangles, process=False)


@pytest.mark.parametrize("name", YARDS)
def test_parts_are_closed_and_as_large_as_told(name: str) -> None:
    yard = YARDS[name]
    for part in unjoined(yard).parts:
        body = mesh(part)
        # A housing leaves faces of neighbouring pieces that meet in more than one piece's corners.
        assert part.housings or body.is_watertight, part
        assert body.is_winding_consistent or part.housings, part
        assert body.volume == pytest.approx(float(part.volume) / 8128**3, rel=1e-9), part


@pytest.mark.parametrize("name", YARDS)
def test_pieces_of_the_proof_fill_the_same_space(name: str) -> None:
    """The proof cuts parts by itself; volume and middle of what it cuts are those of the told mesh."""
    yard = YARDS[name]
    parts = unjoined(yard).parts
    found = solids(parts)
    for number, part in enumerate(parts):
        body = mesh(part)
        volume, moment = 0.0, np.zeros(3)
        for corners in found.corners[found.part == number]:
            triangles = [(ring[0], b, c) for ring in RINGS for b, c in pairwise(ring[1:])]
            piece = trimesh.Trimesh(corners, triangles, process=False)
            volume += piece.volume
            moment += piece.volume * piece.center_mass
        assert volume == pytest.approx(body.volume, rel=1e-9)
        assert moment / volume == pytest.approx(body.center_mass, abs=1e-6)
