"""An arrangement at other sizes: the same runs, ends, cushions and, where rails reach, posts; nothing is searched."""

from __future__ import annotations

from fitter.domain.layout import Layout, PostRole, Side
from fitter.domain.project import Project
from fitter.model.arrangement import Choice, Place, Row, chosen_bays, different_lengths
from fitter.model.bays import Split, rails
from fitter.model.building import build
from fitter.model.frames import Frame, frames
from fitter.model.rail_lines import RailLine
from fitter.model.sizes import Sizes, sizes
from fitter.model.timber import Timber
from rooms.lengths import ZERO, Length


def resized(
    project: Project,
    layout: Layout,
    dx: Length = ZERO,
    dy: Length = ZERO,
    within: tuple[Frame, ...] | None = None,
) -> Layout | None:
    """Lay an arrangement out at the sizes of a project.

    Args:
        project: with other sizes of wood, ease or overhang than those that the layout was made for, and the same
            cushions in the same order.
        layout: whose runs, ends, corner cushions and treatment are kept. Its deck corner stays where it is, and its
            posts keep their module lines where rails reach that far, else the usual ones are taken.
        dx: how far it is moved then, along the main run.
        dy: the same into the room.
        within: the frames of the project, which depend on its room and wishes alone; None to find them.

    Returns:
        The layout, which may not fit its room: that is the checker's to tell. None where a corner place cannot hold
        its posts or its cushion, or no posts can carry the rails.
    """
    known, mark = sizes(project), project.mark
    every = frames(project) if within is None else within
    frame, mount = next((frame, mount) for frame in every for mount in frame.mounts if mount.pose == layout.pose)
    corner = min(layout.runs[0].deck.x0, *(module.box.x0 for module in layout.modules))
    x, y = (corner + dx) // mark + mount.dx, (layout.runs[0].deck.y0 + dy) // mark + mount.dy
    choice = _choice(layout, known, mount.number, x, y)
    laid = Place(choice, known)
    timber = (_same(layout, laid) or _usual(layout, laid)) if _turns(laid) else None
    return None if timber is None else build(project, choice, timber, known, frame)


def _turns(laid: Place) -> bool:
    """Whether each corner place has room for its posts and rail, and for its cushion."""
    for arm in laid.choice.arms:
        deck, cushion = laid.deck(arm), laid.choice.cushion(arm)
        if min(deck - laid.sizes.overhang, laid.wood) <= laid.sizes.turn:
            return False
        if cushion is not None:
            size = laid.sizes.options[cushion]
            if size.pitch > deck - laid.gap or size.deck > laid.depth - laid.gap:
                return False
    return True


def _same(layout: Layout, laid: Place) -> Timber | None:
    """Posts and splits at the module lines of the layout; None where a rail would be too long or has no place."""
    chosen = tuple(_stands(layout, line) for line in laid.lines)
    post, span = laid.sizes.post, laid.sizes.span
    splits = tuple(layout.split_lines(line.run) for line in laid.lines[::2])
    if not any(splits):
        lengths = [
            n for line, split in zip(laid.lines, chosen, strict=True) for n in rails(line.clear.length, split, post)
        ]
        if not all(0 < length <= span for length in lengths):
            return None
    posts = sum(map(len, chosen)) + 2 * len(laid.arms)
    return Timber(chosen, posts, different_lengths(laid, chosen), splits if any(splits) else ())


def _stands(layout: Layout, line: RailLine) -> Split:
    """Where the posts of one line of rails stand, but for those beside splits."""
    apart = layout.split_lines(line.run)
    numbers = {
        post.line
        for post in layout.posts
        if (post.role, post.run, post.face) == (PostRole.SUPPORT, line.run, line.face) and post.line not in apart
    }
    return tuple(at for at, number in zip(line.clear.lines, line.numbers, strict=True) if number in numbers)


def _usual(layout: Layout, laid: Place) -> Timber | None:
    """Posts as they would stand if boards cost nothing, in one piece."""
    chosen = None if layout.splits else chosen_bays(laid, {})
    if chosen is None:
        return None
    return Timber(chosen, sum(map(len, chosen)) + 2 * len(laid.arms), different_lengths(laid, chosen))


def _choice(layout: Layout, known: Sizes, mount: int, x: int, y: int) -> Choice:
    """What the model would have decided to make this layout."""

    def option(cushion: str, turned: bool) -> int:
        return [(size.option.cushion.name, size.option.turned) for size in known.options].index((cushion, turned))

    rows = {run.side: Row(option(run.cushion, run.turned), run.count) for run in layout.runs}
    corners = {
        module.corner: option(module.cushion, module.turned) for module in layout.corners if module.cushion is not None
    }
    ends = {end.hand: end.kind for end in layout.ends}
    return Choice(
        mount=mount,
        aligned=layout.pose.aligned,
        main=rows[Side.MAIN],
        right=rows.get(Side.RIGHT),
        left=rows.get(Side.LEFT),
        corner=layout.corner,
        right_corner=corners.get(Side.RIGHT),
        left_corner=corners.get(Side.LEFT),
        right_end=ends[Side.RIGHT],
        left_end=ends[Side.LEFT],
        x=x,
        y=y,
    )
