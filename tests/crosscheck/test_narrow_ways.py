"""Where a route is told to be narrow, against moving a disc, in random rooms."""

from __future__ import annotations

from dataclasses import replace

import pytest
from random_rooms import case

from rooms.clearance import lets_through, narrow_places
from rooms.lengths import UNITS_PER_INCH, Length

FULL, LEAST, APART = Length.inches(36), Length.inches(24), Length.inches(48)

AGREE = Length.inches("0.05")
"""What the arcs of a moved disc may take from a passage."""

SAMPLE = range(32)
MANY = range(1000, 3000)


def wrong(seed: int) -> str | None:
    """What is told that a disc contradicts: a way that is open, narrow or barred."""
    room, furniture = case(seed).room, case(seed).furniture
    wide = replace(room.routes[0], width=FULL)
    places = narrow_places(room, wide, furniture, full=FULL, least=LEAST, apart=APART)
    if places is None:
        barred = lets_through(room, wide, furniture, LEAST + AGREE)
        return f"room {seed}: no way is told, and a disc of the least width gets through" if barred else None
    if not lets_through(room, wide, furniture, LEAST - AGREE):
        return f"room {seed}: a way is told, and no disc of the least width gets through"
    if not places:
        narrow = not lets_through(room, wide, furniture, FULL - AGREE)
        return f"room {seed}: nothing narrow is told, and no disc of the full width gets through" if narrow else None
    if lets_through(room, wide, furniture, FULL + AGREE):
        return f"room {seed}: a narrow place is told, and a disc of the full width gets through"
    clear = min(place.clear for place in places)
    if lets_through(room, wide, furniture, Length(round(clear)) - AGREE) or clear < LEAST.units + AGREE.units:
        return None
    return f"room {seed}: {clear / UNITS_PER_INCH:.3f} in are told, and no disc of that width gets through"


@pytest.mark.parametrize("part", range(4))
def test_a_sample_of_ways(part: int) -> None:
    assert [told for seed in SAMPLE[part::4] if (told := wrong(seed))] == []


def test_the_sample_holds_every_kind_of_answer() -> None:
    kinds = set()
    for seed in range(12):
        drawn = case(seed)
        places = narrow_places(drawn.room, drawn.room.routes[0], drawn.furniture, full=FULL, least=LEAST, apart=APART)
        kinds.add("barred" if places is None else "narrow" if places else "wide")
    assert kinds == {"barred", "narrow", "wide"}


@pytest.mark.sweep
@pytest.mark.parametrize("part", range(20))
def test_many_ways(part: int) -> None:
    assert [told for seed in MANY[part::20] if (told := wrong(seed))] == []
