"""Whatever chain of runs is laid out by hand passes the checker, as long as the document allows it."""

from __future__ import annotations

from collections import Counter

import pytest
from random_chains import random_yard
from tampering import codes

from fitter.domain.layout import Face, Layout, Rail, Side
from fitter.domain.wishes import CornerKind


@pytest.mark.parametrize("decade", range(20))
def test_random_chains_pass(decade: int) -> None:
    """Ten at a time."""
    for seed in range(10 * decade, 10 * decade + 10):
        assert (seed, codes(random_yard(seed))) == (seed, [])


def owners(layout: Layout) -> str:
    """Which runs own the corners of a U."""
    return "".join(sorted("arm" if module.run is not Side.MAIN else "main" for module in layout.corners))


def test_random_chains_are_of_every_kind() -> None:
    """Shapes, hands, aligned runs, treatments and owners all come up."""
    layouts = [random_yard(seed).layout for seed in range(200)]
    kinds = Counter((layout.shape, layout.hand, layout.pose.aligned) for layout in layouts)
    assert len(kinds) == 6
    assert len({(layout.shape, layout.corner) for layout in layouts}) == 13
    assert {(layout.corner, bool(layout.gap)) for layout in layouts} >= {
        (corner, far) for corner in CornerKind for far in (False, True) if far or corner is not CornerKind.SPREAD
    }
    assert {len(m.notch.strips) for layout in layouts for m in layout.corners if m.notch} == {0, 2}
    assert {owners(layout) for layout in layouts if len(layout.corners) == 2} == {"armarm", "armmain", "mainmain"}
    splits = [split for layout in layouts for split in layout.splits]
    assert {(split.run, split.line > 0) for split in splits} == {(side, far) for side in Side for far in (False, True)}
    assert any(module.cover for layout in layouts for module in layout.modules)
    assert any(crossing(rail) for layout in layouts for rail in layout.rails)


def crossing(rail: Rail) -> bool:
    """Whether a rail runs across from the inner corner to the back of an arm."""
    return rail.face is Face.CROSS and rail.box.x1 - rail.box.x0 > rail.box.y1 - rail.box.y0
