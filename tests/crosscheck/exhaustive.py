"""Every layout in every place of a tiny room, tried one after another: slow, and hard to get wrong.

Frames use the plain float angle of an edge, distances and walkways are shapely's, posts are tried in every
combination over the whole layout. Nothing is shared with the twin.
"""

from __future__ import annotations

from itertools import product

from designs import Design, Worth, forms, wished
from places import extent, places

from fitter.domain.project import Project


def best_by_trying(project: Project) -> Worth | None:
    """The best worth in the order of the wish; None if nothing fits anywhere.

    Args:
        project: of doll's size.
    """
    known = [place.everywhere() for place in places(project)]
    for design in sorted(_designs(project), key=lambda d: wished(project, d.worth), reverse=True):
        if any(place.fits(design) for place in known if place.aligned is design.aligned):
            return design.worth
    return None


def _designs(project: Project) -> list[Design]:
    found: list[Design] = []
    for form in forms(project, extent(project)):
        worths = sorted({worth for chosen in product(*form.corners()) if (worth := form.worth(chosen)) is not None})
        if worths:
            for posts in form.posts():
                for worth in worths:
                    found += form.designs(worth, posts)
    return found
