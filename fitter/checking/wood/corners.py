"""Where two backs meet they are held: by a post up to their top, or by each other; and an angle post has its boards."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from fitter.checking.wood.built import Built, sides
from fitter.checking.wood.solids import TINY, Floats, inches
from fitter.domain.findings import Finding
from fitter.domain.layout import Box, Module, PostRole, Side
from fitter.domain.wishes import CornerKind
from fitter.domain.woodwork import PartRole
from rooms.lengths import UNITS_PER_INCH

BACK = (PartRole.UPRIGHT, PartRole.BOTTOM_RAIL, PartRole.TOP_RAIL)
"""Parts of a back that something at a corner may be fastened to."""

EVERY = 6.0
"""Widest space between screws that hold back to back, and from the uppermost to the top, inches: common practice."""


def corner_boards(built: Built) -> Iterator[Finding]:
    """Two boards stand in each corner of an angle post on the faces of both backs, from the deck up; no others do."""
    left = set(built.of(PartRole.CORNER_BOARD))
    if built.layout.corner is CornerKind.ANGLE_POST:
        for module in built.layout.corners:
            for low, high, where in _boards(built, module):
                found = [n for n in sorted(left) if _fills(built, n, low, high)]
                left -= set(found[:1])
                if not found:
                    message = f"no board stands on the {where} of the {module.corner} corner,"
                    yield built.fault("corner-board-missing", message, (low + high) / 2)
    for number in sorted(left):
        message = f"{built.name(number)} is no board of an angle post"
        yield built.fault("corner-board-unasked", message, built.middle(number))


def _boards(built: Built, module: Module) -> Iterator[tuple[Floats, Floats, str]]:
    """Where both boards of a corner stand in space: along the main run's back, then along the arm's."""
    angle, right = built.project.frame.angle, module.corner is Side.RIGHT
    thick, wide = built.mark(angle.thickness), built.mark(angle.width)
    low, high = sides(module.box)
    x, sign = (low[0], 1) if right else (high[0], -1)
    heights = inches(built.levels.deck), inches(built.levels.back_top)
    for over, deep, where in ((wide, (0.0, thick), "main back"), (thick, (thick, thick + wide), "arm's back")):
        ends = sorted((float(x), float(x + sign * over)))
        yield (
            np.array([ends[0], low[1] + deep[0], heights[0]]),
            np.array([ends[1], low[1] + deep[1], heights[1]]),
            where,
        )


def _fills(built: Built, number: int, low: Floats, high: Floats) -> bool:
    off = np.concatenate([built.solids.part_low[number] - low, built.solids.part_high[number] - high])
    return bool((np.abs(off) < TINY).all())


def backs_held(built: Built) -> Iterator[Finding]:
    """Above the deck fasteners lead from each back to the other at every corner, and to the post where it is tall.

    Backs without a tall post are screwed to each other in a row that is close enough and ends near their top.
    """
    for module in built.layout.corners:
        arm, treatment = module.corner, built.layout.corner
        if arm is None or treatment is None:
            continue
        links, top = _links(built, arm), inches(built.levels.back_top)
        if treatment.tall:
            held, how = _joined(links, "post", str(Side.MAIN), str(arm)), "held by the post there"
        else:
            row = [inches(built.levels.deck), *sorted(links.get(frozenset((str(Side.MAIN), str(arm))), []))]
            held = max((b - a for a, b in pairwise(row)), default=top) <= EVERY and top - row[-1] <= EVERY
            how = "screwed to each other close enough"
        if not held:
            low, high = sides(module.box)
            spot = np.array([low[0] if arm is Side.RIGHT else high[0], low[1], top])
            yield built.fault("backs-apart", f"the backs at the {arm} corner are not {how},", spot)


def _post_plan(built: Built, arm: Side) -> Box:
    posts = (post for post in built.layout.posts if post.role is PostRole.CORNER and post.run is arm)
    return next(post.box for post in posts)


def _links(built: Built, arm: Side) -> dict[frozenset[str], list[float]]:
    """Heights above the deck of fasteners between two of: main back, arm's back, post of the corner; by those two."""
    deck, found = inches(built.levels.deck), dict[frozenset[str], list[float]]()
    for joint in built.woodwork.joints:
        if all(0 <= number < len(built.parts) for number in joint.parts):
            pair = frozenset(_whose(built, number, arm) for number in joint.parts)
            heights = (float(f.head[2] + f.tip[2]) / 2 / UNITS_PER_INCH for f in joint.fasteners)
            found.setdefault(pair, []).extend(height for height in heights if height > deck)
    return found


def _whose(built: Built, number: int, arm: Side) -> str:
    """What a part is of: a back that meets at the corner, or its post; else nothing."""
    part = built.parts[number]
    if part.role is PartRole.CORNER_POST:
        low, high = sides(_post_plan(built, arm))
        middle = built.middle(number)[:2]
        return "post" if (middle > low).all() and (middle < high).all() else ""
    return str(part.run) if part.role in BACK and part.run in (Side.MAIN, arm) else ""


def _joined(links: dict[frozenset[str], list[float]], *names: str) -> bool:
    """Whether all of some are fastened together, over others if need be."""
    reached = {names[0]}
    for _ in names:
        for pair, heights in links.items():
            if heights and "" not in pair and pair & reached:
                reached |= pair
    return reached.issuperset(names)
