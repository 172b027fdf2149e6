"""Areas for the finish against a general mesh library, and against the contacts that the proof of a frame finds."""

from __future__ import annotations

import pytest
from test_wood_volumes import YARDS, mesh, unjoined

from fitter.checking.wood.contacts import contacts
from fitter.checking.wood.solids import solids
from fitter.domain.surfaces import surface
from fitter.workflow.buying import touching

SQUARE_INCH = 8128**2


@pytest.mark.parametrize("name", YARDS)
def test_surfaces_are_those_of_the_meshes(name: str) -> None:
    """Backs lean in some of these frames, and ends are mitred."""
    for part in unjoined(YARDS[name]).parts:
        assert surface(part) / SQUARE_INCH == pytest.approx(mesh(part).area, rel=1e-9), part


@pytest.mark.parametrize("name", YARDS)
def test_what_touches_is_what_the_proof_finds(name: str) -> None:
    """The proof shares no code with what builds a frame; it leaves out what is narrower than a hundredth of an inch."""
    frame = unjoined(YARDS[name])
    ours: dict[tuple[int, int], int] = {}
    for touch in touching(frame.woodwork):
        ours[touch.parts] = ours.get(touch.parts, 0) + touch.area
    theirs = contacts(solids(frame.parts)).pairs
    assert set(theirs) <= set(ours)
    for pair, area in ours.items():
        assert area / SQUARE_INCH == pytest.approx(theirs.get(pair, 0.0), abs=0.05), pair
    assert sum(ours.values()) / SQUARE_INCH == pytest.approx(sum(theirs.values()), rel=1e-3)
