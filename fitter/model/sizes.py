"""All sizes that the model computes with, in whole shop marks."""

from __future__ import annotations

from dataclasses import dataclass

from fitter.domain.cushions import Cushion, Option, options
from fitter.domain.frame import RailJoint
from fitter.domain.project import Project
from fitter.domain.wishes import EndKind
from fitter.model.frames import marks
from rooms.lengths import ZERO, Length


@dataclass(frozen=True)
class OptionSize:
    """One way to lay a cushion.

    Args:
        option: the cushion and whether it lies turned.
        kind: index of the cushion in the file.
        pitch: room per module along the run; along the main run for a corner cushion.
        deck: deck depth.
        seats: sitting places on one cushion.
        notch: what an inside post cuts from it in a corner place, along each side.
        turns: whether a corner place of that depth has room for its posts and cross rail.
    """

    option: Option
    kind: int
    pitch: int
    deck: int
    seats: int
    notch: int
    turns: bool

    @property
    def spoils(self) -> bool:
        """Whether an inside post would cut what must not be cut."""
        return self.notch > 0 and not self.option.cushion.may_notch


@dataclass(frozen=True)
class Sizes:
    """Marks for everything but places.

    Args:
        mark: the shop mark.
        options: every way to lay every cushion, in file order.
        post: width of a post.
        rail: thickness of a rail.
        back: thickness of the back panel.
        ends: thickness of each kind of end.
        legroom: depth before the fronts.
        span: the longest rail: maximum span, or what a board yields if that is less.
        carried: the longest piece that can be carried; None for no limit.
    """

    mark: Length
    options: tuple[OptionSize, ...]
    post: int
    rail: int
    back: int
    ends: dict[EndKind, int]
    legroom: int
    span: int
    carried: int | None = None

    def beyond(self, *, outside: bool) -> int:
        """How far a corner reaches beyond its corner place, behind either run: its backs, or a thicker outside post."""
        return max(self.back, self.post) if outside else self.back

    def crossed(self, deck: int) -> bool:
        """Whether a cross rail can bridge a corner place of that depth, from post to post at most."""
        return deck - 2 * self.post <= self.span

    def held(self, deck: int) -> bool:
        """Whether a cross rail is too long to reach the back rail, and ends at a post on the corner's line."""
        return deck - self.post - self.rail > self.span


def sizes(project: Project) -> Sizes:
    """Round everything up to the shop mark, spans and boards down to it."""
    frame, mark = project.frame, project.mark
    board = project.shop.longest(frame.rail.name)
    if board is not None and frame.carpentry.rail_joint is RailJoint.HOUSING:
        board -= 2 * frame.carpentry.housing  # a rail may go that deep into a post at either end
    longest = frame.max_span if board is None else min(frame.max_span, board)
    return Sizes(
        mark=mark,
        options=tuple(_option(project, option) for option in options(project.cushions)),
        post=marks(frame.post.width, mark),
        rail=marks(frame.rail.thickness, mark),
        back=marks(frame.back_thickness, mark),
        ends={
            EndKind.ARMED: marks(frame.arm_thickness, mark),
            EndKind.OPEN: marks(frame.open_end_thickness, mark),
        },
        legroom=marks(project.wish.legroom, mark),
        span=longest.floor_to(mark) // mark,
        carried=None if frame.carry is None else frame.carry.longest.floor_to(mark) // mark,
    )


def _option(project: Project, option: Option) -> OptionSize:
    mark, cushion = project.mark, option.cushion
    pitch, deck = option.pitch(mark) // mark, option.deck(mark) // mark
    post, rail = marks(project.frame.post.width, mark), marks(project.frame.rail.thickness, mark)
    kind = project.cushions.index(cushion)
    return OptionSize(option, kind, pitch, deck, cushion.seats, _notch(project, cushion), deck > 2 * post + rail)


def _notch(project: Project, cushion: Cushion) -> int:
    """How far the post stands in, plus clearance, less half the ease, at least nothing; up to the mark."""
    frame = project.frame
    post = frame.post.width.ceil_to(project.mark)
    twice = 2 * (post + frame.notch_clearance) - cushion.ease
    return max(0, -(-twice.units // (2 * project.mark.units))) if twice > ZERO else 0
