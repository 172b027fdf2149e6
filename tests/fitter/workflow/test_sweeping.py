"""Sweeps against plain fits: every value solved by itself, or both sides of each change."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest

from fitter.domain.layout import Verdict
from fitter.domain.project import Project
from fitter.domain.sweeps import Shown, Sweep
from fitter.project import ProjectError
from fitter.project.varying import Variable, read_variable
from fitter.report.words import headline
from fitter.workflow.fitting import fit
from fitter.workflow.sweep_readings import covered
from fitter.workflow.sweeping import sweep

NOOK = """\
title: Invented nook
units: in
room:
  tolerance: 0
  corners: {A: [0, 0], B: [110, 0], C: [110, 96], D: [0, 96]}
  openings:
    - {name: door, edge: DA, from: 8, width: 30}
    - {name: gate, edge: BC, from: 60, width: 30}
  obstacles:
    - {name: pot, centre: [80, 70], radius: 4}
  routes:
    - {name: way, from: door, to: gate, width: 20}
cushions:
  - {name: seat, size: [24, 24, 5], price: 40, own: 1}
  - {name: wide, size: [30, 24, 5], price: 41}
wish: {shape: L, hand: right, against: [AB], legroom: 6, ends: open}
"""
STRAIGHT = NOOK.replace("shape: L, hand: right", "shape: straight")
THREE = STRAIGHT.replace("shape: straight", "shape: straight, seats: {most: 3}")


def ell(text: str = NOOK) -> str:
    """The nook without its doors, and with one kind of cushion."""
    lines = [line for line in text.splitlines() if "wide" not in line]
    first, last = lines.index("  openings:"), lines.index("  obstacles:")
    kept = [*lines[:first], *lines[last:]]
    return "\n".join(line for line in kept if "routes:" not in line and "name: way" not in line) + "\n"


def variable(asked: str, folder: Path, text: str) -> Variable:
    file = folder / "nook.yaml"
    file.write_text(text, encoding="utf-8")
    return read_variable(str(file), asked)


def plain(project: Project, shown: Sequence[Shown]) -> tuple[object, ...]:
    """What a plain fit says: the verdict, then what is shown, read off the layout itself."""
    result = fit(project)
    if not result.layouts:
        return (result.verdict,)
    layout = result.layouts[0].layout
    spent = {proof.objective.value: proof.value for proof in result.layouts[0].proofs}.get("money to spend")
    found = {
        Shown.SEATS: layout.seats,
        Shown.LAYOUT: headline(layout),
        Shown.COST: spent,
        Shown.NOTCHED: layout.notches,
        Shown.BUY: sum(row.buy for row in layout.purchases),
        Shown.POSTS: len(layout.posts),
        Shown.LENGTHS: len(layout.rail_lengths),
        Shown.OFF_EDGE: layout.off_edge // project.mark,
        Shown.AREA: covered(layout.footprint),
    }
    return (result.verdict, *(found[one] for one in shown))


def told(found: Sweep, shown: Sequence[Shown]) -> list[tuple[object, ...]]:
    """What a sweep says of every value, in the same words; money that rises evenly is worked out for each."""
    looks: list[tuple[object, ...]] = []
    for stretch in found.stretches:
        for n in range(stretch.count):
            values: list[object] = []
            for one, low, high in zip(shown, stretch.look.values, stretch.until.values, strict=False):
                if one is Shown.LAYOUT and isinstance(low, tuple):
                    shape, seats, hand, corner = low
                    side = f"short run on the {hand}" if hand else ""
                    values.append(", ".join(word for word in (shape, f"{seats} seats", side, corner) if word))
                elif isinstance(low, int) and isinstance(high, int) and stretch.count > 1:
                    values.append(low + Fraction((high - low) * n, stretch.count - 1))
                else:
                    values.append(low)
            looks.append((stretch.look.verdict, *values))
    return looks


GRIDS = [
    (STRAIGHT, "room.routes.0.width=25..30:1", (Shown.SEATS, Shown.POSTS)),
    (STRAIGHT, "cushions.seat.own=1..5", (Shown.SEATS, Shown.COST, Shown.BUY)),
    (THREE, "cushions.seat.price=58..65:1", (Shown.COST, Shown.BUY, Shown.LAYOUT)),
    (STRAIGHT, "frame.max_span=20..80:12", (Shown.SEATS, Shown.POSTS, Shown.LENGTHS)),
    (ell(STRAIGHT), "cushions.0.ease=1..4:1/2", (Shown.SEATS,)),
    (ell(), "room.obstacles.pot.clear=38..40:1/2", (Shown.NOTCHED, Shown.LAYOUT)),
    (ell(), "room.obstacles.pot.centre.x=20..68:24", (Shown.SEATS, Shown.LAYOUT)),
    (ell(), "room.corners.B.x=96..108:3", (Shown.SEATS, Shown.NOTCHED)),
]
LARGE_GRIDS = [
    (NOOK, "room.routes.way.width=10..30:1", (Shown.SEATS, Shown.LAYOUT)),
    (STRAIGHT, "wish.legroom=35..75:2", (Shown.SEATS, Shown.BUY, Shown.LAYOUT)),
    (STRAIGHT, "room.tolerance=0..5:1/4", (Shown.SEATS, Shown.OFF_EDGE)),
    (THREE, "cushions.seat.price=40..90:1", (Shown.COST, Shown.BUY, Shown.LAYOUT)),
    (STRAIGHT, "wish.seats.least=2..6", (Shown.SEATS, Shown.LENGTHS)),
    (STRAIGHT, "wish.seats.most=1..6", (Shown.SEATS, Shown.COST)),
    (STRAIGHT, "frame.max_span=20..80:1", (Shown.SEATS, Shown.POSTS, Shown.LENGTHS)),
    (STRAIGHT, "cushions.wide.ease=-2..6:1/2", (Shown.SEATS, Shown.COST)),
    (STRAIGHT.replace("ends: open", "ends: armed"), "frame.arm_thickness=2..9:1/2", (Shown.SEATS, Shown.AREA)),
    (ell(STRAIGHT), "cushions.0.ease=-2..5:1/8", (Shown.SEATS, Shown.POSTS)),
    (ell(), "cushions.0.ease=-2..5:1/4", (Shown.SEATS, Shown.POSTS)),
    (ell(), "room.corners.B.x=90..130:1", (Shown.SEATS, Shown.NOTCHED)),
    (ell(), "room.obstacles.pot.clear=30..42:1/8", (Shown.NOTCHED, Shown.LAYOUT)),
    (ell(), "room.obstacles.pot.radius=2..44:1", (Shown.SEATS, Shown.LAYOUT, Shown.OFF_EDGE)),
    (ell(), "frame.overhang=0..3:1/4", (Shown.SEATS, Shown.NOTCHED, Shown.AREA)),
    (ell(), "wish.off_wall=0..12:1/2", (Shown.SEATS, Shown.LAYOUT)),
]


def right(text: str, asked: str, shown: tuple[Shown, ...], folder: Path) -> None:
    """A sweep says of every value what a plain fit says, and solves no value twice as a rule."""
    varied = variable(asked, folder, text)
    found = sweep(varied, shown)
    assert told(found, shown) == [plain(varied.project(value), shown) for value in varied.values]
    assert found.solves <= 2 * len(varied.values)


@pytest.mark.parametrize(("text", "asked", "shown"), GRIDS, ids=[asked for _, asked, _ in GRIDS])
def test_every_value_is_what_a_plain_fit_says(
    text: str, asked: str, shown: tuple[Shown, ...], tmp_path: Path
) -> None:  # fmt: skip
    right(text, asked, shown, tmp_path)


@pytest.mark.sweep
@pytest.mark.parametrize(("text", "asked", "shown"), LARGE_GRIDS, ids=[asked for _, asked, _ in LARGE_GRIDS])
def test_every_value_is_what_a_plain_fit_says_wide(
    text: str, asked: str, shown: tuple[Shown, ...], tmp_path: Path
) -> None:  # fmt: skip
    right(text, asked, shown, tmp_path)


def test_an_answer_that_comes_and_goes_is_not_missed(tmp_path: Path) -> None:
    """Both ends, and nearly all between, want no notch; for 11 of 41 values one is needed."""
    varied = variable("room.obstacles.0.clear=35..40:1/8", tmp_path, ell())
    found = sweep(varied, [Shown.NOTCHED])
    assert [stretch.look.values for stretch in found.stretches] == [(0,), (1,), (0,)]
    assert found.stretches[1].count == 11
    assert found.solves < 20
    for stretch, after in pairwise(found.stretches):
        for amount, look in ((stretch.last, stretch.look), (after.first, after.look)):
            assert plain(varied.project(amount), [Shown.NOTCHED]) == (Verdict.PROVEN, *look.values)


@pytest.mark.parametrize(
    ("text", "asked", "shown"),
    [
        (STRAIGHT, "room.routes.way.width=26..29", Shown.SEATS),
        (ell(), "room.obstacles.pot.clear=38..40", Shown.SEATS),
    ],
)
def test_both_sides_of_each_change_are_right(text: str, asked: str, shown: Shown, tmp_path: Path) -> None:
    """To the shop mark: the values on either side of a change are solved plainly."""
    varied = variable(asked, tmp_path, text)
    found = sweep(varied, [shown])
    assert len(found.stretches) > 1
    for stretch, after in pairwise(found.stretches):
        assert after.first.number - stretch.last.number == varied.step.number == Fraction(508)
        for amount, look in ((stretch.last, stretch.look), (after.first, after.look)):
            assert plain(varied.project(amount), [shown]) == (look.verdict, *look.values)


@pytest.mark.parametrize(
    ("text", "key", "steps", "shown"),
    [
        (STRAIGHT, "room.routes.way.width=22..34", ("1", "1/2", "1/16"), [Shown.SEATS, Shown.LAYOUT]),
        (THREE, "cushions.seat.price=56..68", ("0.8", "0.4", "0.08"), [Shown.COST, Shown.BUY]),
    ],
)
def test_solves_grow_with_changes_not_with_values(
    text: str, key: str, steps: tuple[str, ...], shown: list[Shown], tmp_path: Path
) -> None:  # fmt: skip
    """A grid twice as fine halves once more for each change, which takes at most three solves."""
    coarse, fine, finest = (sweep(variable(f"{key}:{step}", tmp_path, text), shown) for step in steps)
    changes = len(finest.stretches) - 1
    assert len(coarse.stretches) == len(fine.stretches) == len(finest.stretches) == 2
    assert fine.solves <= coarse.solves + 3 * changes
    assert finest.solves <= coarse.solves + 3 * 4 * changes
    assert finest.values > 9 * coarse.values
    assert finest.solves < finest.values / 8


def test_what_changes_nothing_is_solved_once(tmp_path: Path) -> None:
    found = sweep(variable("shop.spare=0 %..50 %", tmp_path, STRAIGHT), [Shown.SEATS, Shown.LAYOUT])
    assert (found.values, found.solves, len(found.stretches)) == (51, 1, 1)


def test_every_value_is_solved_where_nothing_is_known(tmp_path: Path) -> None:
    found = sweep(variable("frame.back_thickness=2..4:1", tmp_path, STRAIGHT), [Shown.SEATS])
    assert (found.solves, found.related) == (3, False)


def test_values_for_which_the_file_is_wrong_part_the_range(tmp_path: Path) -> None:
    varied = variable("room.openings.door.width=78..96:6", tmp_path, STRAIGHT)
    found = sweep(varied, [Shown.SEATS])
    good, bad = found.stretches
    assert (good.look.verdict, bad.look.verdict) == (Verdict.PROVEN, None)
    assert bad.refusal is not None
    with pytest.raises(ProjectError) as caught:
        varied.project(bad.first)
    assert bad.refusal in caught.value.findings
    varied.project(good.last)


def test_what_does_not_fit_says_why_at_its_first_value(tmp_path: Path) -> None:
    found = sweep(variable("wish.seats.least=3..9", tmp_path, STRAIGHT), [Shown.SEATS])
    fits, none = found.stretches
    assert none.look.values == ()
    assert none.result is not None
    assert none.result.clash
    assert none.project is not None
    assert none.project.wish.least == fits.count + 3


def test_only_the_verdict(tmp_path: Path) -> None:
    varied = variable("wish.seats.least=1..9", tmp_path, STRAIGHT)
    verdicts = [fit(varied.project(value)).verdict for value in varied.values]
    found = sweep(varied, [Shown.VERDICT])
    assert [stretch.look.verdict for stretch in found.stretches for _ in range(stretch.count)] == verdicts


def test_no_time_proves_nothing(tmp_path: Path) -> None:
    """Where the solver is stopped at once, nothing is claimed of any value."""
    found = sweep(variable("wish.legroom=6..20:2", tmp_path, NOOK), [Shown.SEATS], 1e-6)
    assert {stretch.look.verdict for stretch in found.stretches} <= {Verdict.FOUND, Verdict.UNKNOWN}
    assert sum(stretch.count for stretch in found.stretches) == 8
