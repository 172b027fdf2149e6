"""Fasteners are proven in place; each way to misplace one is noticed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

import numpy as np
import pytest
from framed_yards import built as as_built
from framed_yards import framed
from mutations import with_wood
from yards import inch

from fitter.checking.wood.built import Built
from fitter.checking.wood.fasteners import fasteners_apart, fasteners_drawn, fasteners_in_wood, pockets_hidden
from fitter.checking.wood.steel import between, near
from fitter.domain.woodwork import Fastener, Fixing, Number, Part, PartRole, Vector
from rooms.lengths import Length

FACTS = (fasteners_drawn, fasteners_in_wood, fasteners_apart, pockets_hidden)
SEEDS = (0, 1, 5, 10, 14, 16, 20, 25, 31, 36)
"""Leaning and upright backs, housings, ledgers and plain screws, inches and millimetres, mitred and other ends."""
KINDS = (Fixing.SCREW, Fixing.POCKET_SCREW, Fixing.BOLT)
Move = Callable[[Fastener, tuple[Part, ...]], Fastener]


@lru_cache(maxsize=2)
def frame(seed: int) -> Built:
    return as_built(framed(seed))


def codes(built: Built) -> set[str]:
    return {finding.code for fact in FACTS for finding in fact(built)}


@pytest.mark.parametrize("seed", SEEDS)
def test_the_fasteners_of_a_right_frame_hold(seed: int) -> None:
    built = frame(seed)
    assert len(built.steel.fasteners) > 100
    assert codes(built) == set()


def tampered(built: Built, kind: Fixing, change: Move, nth: int = 3) -> Built:
    """The frame, one of its fasteners of a kind another."""
    numbers = [
        (i, k) for i, joint in enumerate(built.woodwork.joints) for k, f in enumerate(joint.fasteners) if f.kind is kind
    ]
    i, k = numbers[nth]
    joints = list(built.woodwork.joints)
    fasteners = list(joints[i].fasteners)
    fasteners[k] = change(fasteners[k], built.parts)
    joints[i] = replace(joints[i], fasteners=tuple(fasteners))
    return with_wood(built, replace(built.woodwork, joints=tuple(joints)))


def along(fastener: Fastener, by: str) -> Vector:
    """So many inches from head to tip."""
    long = sum(float(b - a) ** 2 for a, b in zip(fastener.head, fastener.tip, strict=True)) ** 0.5
    share = Fraction(inch(by).units / long)
    x, y, z = (share * (b - a) for a, b in zip(fastener.head, fastener.tip, strict=True))
    return x, y, z


def plus(point: Vector, step: Vector) -> Vector:
    return point[0] + step[0], point[1] + step[1], point[2] + step[2]


def moved(fastener: Fastener, step: Vector) -> Fastener:
    return replace(fastener, head=plus(fastener.head, step), tip=plus(fastener.tip, step))


def sideways(fastener: Fastener, parts: tuple[Part, ...]) -> Fastener:
    """Along the held part's grain, by its length: out of it."""
    held = parts[fastener.through]
    x, y, z = (held.length.units * share for share in held.along)
    return moved(fastener, (x, y, z))


def longer(fastener: Fastener, by: str) -> Fastener:
    return replace(fastener, tip=plus(fastener.tip, along(fastener, by)), length=fastener.length + inch(by))


def grip(fastener: Fastener) -> Length:
    """From head to tip, along an axis of the layout frame."""
    return Length(int(max(abs(a - b) for a, b in zip(fastener.head, fastener.tip, strict=True))))


TAMPERINGS: dict[str, tuple[tuple[Fixing, ...], Move, str]] = {
    "beside its parts": (KINDS, sideways, "fastener-head"),
    "sunk": ((Fixing.SCREW, Fixing.BOLT), lambda f, _: moved(f, along(f, "1/4")), "fastener-head"),
    "standing out": ((Fixing.SCREW, Fixing.BOLT), lambda f, _: moved(f, along(f, "-1/4")), "fastener-head"),
    "too short": ((Fixing.SCREW, Fixing.POCKET_SCREW), lambda f, _: longer(f, "-9/5"), "fastener-short"),
    "right through": ((Fixing.SCREW, Fixing.POCKET_SCREW), lambda f, _: longer(f, "8"), "fastener-through"),
    "out at the far side": ((Fixing.SCREW, Fixing.POCKET_SCREW), lambda f, _: longer(f, "8"), "fastener-out"),
    "beyond the far face": ((Fixing.BOLT,), lambda f, _: longer(f, "1"), "fastener-through"),
    "turned about": (KINDS, lambda f, _: replace(f, through=f.into, into=f.through), "fastener-astray"),
    "backward": ((Fixing.SCREW,), lambda f, _: replace(f, head=f.tip, tip=f.head), "fastener-head"),
    "told longer": (
        (Fixing.SCREW, Fixing.POCKET_SCREW),
        lambda f, _: replace(f, length=f.length + inch("1/2")),
        "fastener-length",
    ),
    "no thread for a nut": ((Fixing.BOLT,), lambda f, _: replace(f, length=grip(f)), "fastener-length"),
    "bored too wide": ((Fixing.SCREW,), lambda f, _: replace(f, pilot=f.diameter), "fastener-pilot"),
    "bored too tight": ((Fixing.BOLT,), lambda f, _: replace(f, pilot=f.diameter), "fastener-pilot"),
}
CASES = [(name, kind) for name, (kinds, _, _) in TAMPERINGS.items() for kind in kinds]


@pytest.mark.parametrize(("name", "kind"), CASES)
def test_a_misplaced_fastener_is_noticed(name: str, kind: Fixing) -> None:
    _, change, code = TAMPERINGS[name]
    assert code in codes(tampered(frame(1), kind, change))


@pytest.mark.parametrize("kind", KINDS)
def test_one_beside_another_is_noticed(kind: Fixing) -> None:
    built = frame(1)
    joint = next(j for j in built.woodwork.joints if sum(f.kind is kind for f in j.fasteners) > 1)
    first, second = joint.fasteners[:2]
    near_by = tuple(a + (b - a) / 50 for a, b in zip(first.head, second.head, strict=True))
    beside = moved(first, tuple(a - b for a, b in zip(near_by, first.head, strict=True)))  # type: ignore[arg-type]
    joints = tuple(
        replace(j, fasteners=(first, beside, *j.fasteners[2:])) if j is joint else j for j in built.woodwork.joints
    )
    assert "fasteners-meet" in codes(with_wood(built, replace(built.woodwork, joints=joints)))


def mirrored(fastener: Fastener, parts: tuple[Part, ...]) -> Fastener:
    """The same pocket from the opposite face of the held part."""
    held = parts[fastener.through]
    middle = held.at(0, 0, Fraction(held.thickness.units, 2))

    def across(point: Vector) -> Vector:
        off = sum((a - b) * c for a, b, c in zip(point, middle, held.through, strict=True))
        x, y, z = (a - 2 * off * c for a, c in zip(point, held.through, strict=True))
        return x, y, z

    return replace(fastener, head=across(fastener.head), tip=across(fastener.tip))


@pytest.mark.parametrize(
    "role", [PartRole.FRONT_RAIL, PartRole.BACK_RAIL, PartRole.BOTTOM_RAIL, PartRole.TOP_RAIL, PartRole.END_RAIL]
)
def test_a_pocket_in_a_face_that_shows_is_noticed(role: PartRole) -> None:
    built = next(frame(seed) for seed in SEEDS if frame(seed).of(role))
    pockets = [f for f in built.steel.fasteners if f.kind is Fixing.POCKET_SCREW]
    number = next(n for n, f in enumerate(pockets) if built.parts[f.through].role is role)
    assert "pocket-shows" in codes(tampered(built, Fixing.POCKET_SCREW, mirrored, number))


def test_a_pocket_bored_from_above_is_noticed() -> None:
    built = frame(1)
    pockets = [f for f in built.steel.fasteners if f.kind is Fixing.POCKET_SCREW]
    number = next(n for n, f in enumerate(pockets) if built.parts[f.through].role is PartRole.FRONT_RAIL)

    def from_above(fastener: Fastener, parts: tuple[Part, ...]) -> Fastener:
        """The slant that it has across the thickness, down through the top edge instead."""
        held = parts[fastener.through]
        drop = sum((b - a) * c for a, b, c in zip(fastener.head, fastener.tip, held.through, strict=True))
        top = max(corner[2] for corner in held.corners)
        flat: list[Number] = [x - drop * c for x, c in zip(fastener.tip, held.through, strict=True)]
        head = (fastener.head[0], fastener.head[1], top - inch("1/2").units)
        return replace(fastener, head=head, tip=(flat[0], flat[1], head[2] - abs(drop)))

    assert "pocket-upward" in codes(tampered(built, Fixing.POCKET_SCREW, from_above, number))


def test_distances_between_segments_as_points_along_them_tell() -> None:
    random = np.random.default_rng(4)
    a, b, c, d = random.uniform(-1, 1, (4, 300, 3))
    shares = np.linspace(0, 1, 80)
    one = a[:, None] + shares[:, None] * (b - a)[:, None]
    other = c[:, None] + shares[:, None] * (d - c)[:, None]
    brute = np.linalg.norm(one[:, :, None] - other[:, None], axis=3).min(axis=(1, 2))
    found = between(a, b, c, d)
    # Points along are never nearer, and at most half a step of each farther.
    assert (found <= brute + 1e-12).all()
    assert (found >= brute - 4 / 79).all()
    assert between(a, b, a, b) == pytest.approx(0.0)


def test_near_boxes_are_all_found() -> None:
    random = np.random.default_rng(5)
    low = random.uniform(0, 10, (60, 3))
    high = low + random.uniform(0, 2, (60, 3))
    wanted = {
        (i, j)
        for i in range(60)
        for j in range(i + 1, 60)
        if (np.maximum(low[i], low[j]) - np.minimum(high[i], high[j]) <= 0.5).all()
    }
    assert set(zip(*(x.tolist() for x in near(low, high, 0.5)), strict=True)) == wanted
