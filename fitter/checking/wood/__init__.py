"""The frame is proven complete from its solids alone, before anything of it is shown.

Nothing here knows how the frame was built: it is given the project, the layout and the parts, works every corner out
anew in floats, and asks of them what a maker would ask at assembly.
"""

from __future__ import annotations

from fitter.checking.wood import (
    apart,
    backs,
    bearing,
    carried,
    corners,
    end_frames,
    ends,
    fasteners,
    ground,
    inventory,
    joints,
    shapes,
    shelves,
    tables,
    wide_arms,
)
from fitter.checking.wood.built import Built, Fact
from fitter.domain.fills import eased
from fitter.domain.findings import Finding
from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.woodwork import Woodwork

__all__ = ["JOINTS", "SOLIDS", "check_woodwork", "failing"]

SOLIDS: tuple[Fact, ...] = (
    shapes.sticks,
    shapes.marks,
    shapes.heights,
    apart.parts_apart,
    apart.cushions_free,
    apart.inside_footprint,
    inventory.posts,
    inventory.rails,
    inventory.cleats_along_rails,
    inventory.decks,
    end_frames.ends_complete,
    backs.panels_whole,
    backs.back_slats_spread,
    backs.panel_heights,
    backs.under_backs,
    corners.corner_boards,
    tables.tables,
    shelves.shelves,
    shelves.shelf_slats,
    wide_arms.wide_arms,
    wide_arms.arm_boards,
    bearing.seat_slats,
    bearing.table_boards,
    bearing.back_slats,
    bearing.cleats,
    bearing.short_cleats_flush,
    bearing.ledgers,
    ends.ends_held,
    ground.feet_on_ground,
    ground.standing_on_feet,
    ground.all_reach_ground,
    carried.slats_spread,
    carried.modules_carried,
)
"""What holds of the parts of a frame, whatever fastens them."""

JOINTS: tuple[Fact, ...] = (
    joints.joints_touch,
    joints.parts_fastened,
    joints.all_fastened,
    joints.split_posts_bolted,
    corners.backs_held,
    fasteners.fasteners_drawn,
    fasteners.fasteners_in_wood,
    fasteners.fasteners_apart,
    fasteners.pockets_hidden,
)
"""What holds of its joints."""


def check_woodwork(project: Project, layout: Layout, woodwork: Woodwork) -> tuple[Finding, ...]:
    """Prove a frame complete: nothing overlaps, all is carried, held and reached from the ground, nothing is missing.

    Args:
        project: what was asked.
        layout: what the frame is for; it must have passed `check_layout`.
        woodwork: what is to be shown.

    Returns:
        An error for each fact that does not hold, with the part and the spot; empty when all is right.
    """
    return failing(Built(eased(project, layout), layout, woodwork), (*SOLIDS, *JOINTS))


def failing(built: Built, facts: tuple[Fact, ...]) -> tuple[Finding, ...]:
    """What some facts find wrong."""
    return tuple(finding for fact in facts for finding in fact(built))
