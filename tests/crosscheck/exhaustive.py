"""Every layout in every place of a tiny room, tried one after another: slow, and hard to get wrong.

Frames use the plain float angle of an edge, distances and walkways are shapely's, posts are tried in every
combination over the whole layout. Nothing is shared with the twin.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import product

from designs import Design, Worth, forms, wished
from places import extent, places

from fitter.domain.project import Project


@dataclass(frozen=True)
class Tried:
    """The best that was found.

    Args:
        worth: the best in the order of the wish.
        off: least distance off the edge of a layout that is worth so much, in marks.
    """

    worth: Worth
    off: float


def best_by_trying(project: Project) -> Tried | None:
    """The best of a project of doll's size; None if nothing fits anywhere."""
    return best_of(project, _designs(project))


def best_of(project: Project, designs: Iterable[Design]) -> Tried | None:
    """The best of some designs that has a place in the room of a project; None if none has."""
    known = [place.everywhere() for place in places(project)]
    best: Tried | None = None
    for design in sorted(designs, key=lambda d: wished(project, d.worth), reverse=True):
        if best is not None and design.worth != best.worth:
            break
        found = [place.least_off(design) for place in known if place.aligned is design.aligned]
        offs = [off for off in found if off is not None]
        if offs and (best is None or min(offs) < best.off):
            best = Tried(design.worth, min(offs))
    return best


def _designs(project: Project) -> list[Design]:
    found: list[Design] = []
    for form in forms(project, extent(project)):
        worths = sorted({worth for chosen in product(*form.corners()) if (worth := form.worth(chosen)) is not None})
        if worths:
            for posts in form.posts():
                for worth in worths:
                    found += form.designs(worth, posts)
    return found
