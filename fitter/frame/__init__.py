"""The frame: every stick of wood of a layout, placed in space, with what holds it."""

from __future__ import annotations

from dataclasses import replace

from fitter.domain.cushions import Cushion
from fitter.domain.layout import Layout, Module
from fitter.domain.levels import levels
from fitter.domain.project import Project
from fitter.domain.woodwork import Levels, Part, PartRole, Woodwork
from fitter.frame.backs import backs
from fitter.frame.corner_boards import corner_boards
from fitter.frame.corner_findings import corner_findings
from fitter.frame.deck import deck
from fitter.frame.ends import ends
from fitter.frame.feet import feet
from fitter.frame.findings import findings
from fitter.frame.joints import joints
from fitter.frame.marks import marked
from fitter.frame.pieces import in_pieces
from fitter.frame.seat import seat_frame
from fitter.frame.shelves import shelves
from fitter.frame.strips import Site
from fitter.frame.tables import tables
from fitter.frame.wide_arms import wide_arms

__all__ = ["build_frame", "seat_and_backs"]


def build_frame(project: Project, layout: Layout) -> Woodwork:
    """Derive the whole frame of a layout.

    Args:
        project: with the sizes of wood and how it is built.
        layout: any that the model returns.

    Returns:
        Every part in the layout frame, exactly, with marks, joints and heights.

    Raises:
        ValueError: the heights leave no room for rails or back; a project read from a file has been checked for that.
    """
    site = Site(project, layout, heights(project, layout))
    slats, seat_spreads = deck(site)
    panels, back_spreads = backs(site)
    tops, table_spreads = tables(site)
    beyond, shelf_spreads = shelves(site)
    wide, arm_spreads = wide_arms(site)
    parts = [*seat_frame(site), *ends(site), *slats, *panels, *corner_boards(site), *tops, *beyond, *wide]
    standing, under, fall = feet(site, parts)
    done = marked(in_pieces(site, [*standing, *under]))
    spreads = (*seat_spreads, *back_spreads, *table_spreads, *shelf_spreads, *arm_spreads)
    made = joints(done, project, joined=site.joined)
    built = Woodwork(done, made, site.levels, spreads, fall)
    said = findings(site, done, spreads, fall)
    return replace(built, findings=(*said, *corner_findings(site, built)))


def seat_and_backs(project: Project, layout: Layout) -> tuple[Part, ...]:
    """Slats, backs, tables, posts and corner boards of a layout, without marks: what its boards cost depends on them.

    Args:
        project: with the sizes of wood and how it is built.
        layout: any that the model returns.

    Raises:
        ValueError: as `build_frame`.
    """
    site = Site(project, layout, heights(project, layout))
    posts = (part for part in seat_frame(site) if part.role in _POSTS)
    return (*posts, *deck(site)[0], *backs(site)[0], *corner_boards(site), *tables(site)[0])


_POSTS = (PartRole.SUPPORT_POST, PartRole.BACK_POST, PartRole.INNER_POST, PartRole.CORNER_POST)


def heights(project: Project, layout: Layout) -> Levels:
    """Of the main run's seat cushion, and of the tallest back cushion that is used."""
    thickness = _kind(project, layout.runs[0].cushion).size[2]
    used = [_kind(project, name) for name in dict.fromkeys(_used(module) for module in layout.modules) if name]
    return levels(project, thickness, max((kind.back.height for kind in used if kind.back), default=None))


def _used(module: Module) -> str:
    return module.cushion or ""


def _kind(project: Project, name: str) -> Cushion:
    return next(cushion for cushion in project.cushions if cushion.name == name)
