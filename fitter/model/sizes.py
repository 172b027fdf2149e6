"""All sizes that the model computes with, in whole shop marks."""

from __future__ import annotations

from dataclasses import dataclass

from fitter.domain.cushions import Cushion, Option, options
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind
from fitter.model.frames import marks
from rooms.lengths import ZERO, Length


@dataclass(frozen=True)
class OptionSize:
    """One way to lay a cushion.

    Args:
        option: the cushion and whether it lies turned.
        pitch: room per module along the run.
        deck: deck depth.
        seats: sitting places on one cushion.
        notch: what an inside post cuts from the corner cushion, along each side.
        turns: whether the corner place of two such runs has room for its posts and cross rail.
    """

    option: Option
    pitch: int
    deck: int
    seats: int
    notch: int
    turns: bool

    @property
    def fits_corner(self) -> bool:
        """Whether a cushion laid so fits the square corner place of two such runs."""
        return self.pitch <= self.deck


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
    """

    mark: Length
    options: tuple[OptionSize, ...]
    post: int
    rail: int
    back: int
    ends: dict[EndKind, int]
    legroom: int
    span: int

    def corner_start(self, corner: CornerKind, *, main: bool) -> int:
        """Where a back rail starts, from the deck corner: past the corner post, or past the other rail."""
        if corner is not CornerKind.OUTSIDE_POST:
            return self.post
        return 0 if main else self.rail


def sizes(project: Project) -> Sizes:
    """Round everything up to the shop mark, spans and boards down to it."""
    frame, mark = project.frame, project.mark
    board = project.shop.longest(frame.rail.name)
    longest = frame.max_span if board is None else min(frame.max_span, board)
    span = longest.floor_to(mark) // mark
    post = marks(frame.post.width, mark)
    return Sizes(
        mark=mark,
        options=tuple(_option(project, option, post, span) for option in options(project.cushions)),
        post=post,
        rail=marks(frame.rail.thickness, mark),
        back=marks(frame.back_thickness, mark),
        ends={
            EndKind.ARMED: marks(frame.arm_thickness, mark),
            EndKind.OPEN: marks(frame.open_end_thickness, mark),
        },
        legroom=marks(project.wish.legroom, mark),
        span=span,
    )


def _option(project: Project, option: Option, post: int, span: int) -> OptionSize:
    mark = project.mark
    pitch, deck = option.pitch(mark) // mark, option.deck(mark) // mark
    rail = marks(project.frame.rail.thickness, mark)
    turns = deck > 2 * post + rail and deck - 2 * post <= span
    return OptionSize(option, pitch, deck, option.cushion.seats, _notch(project, option.cushion), turns)


def _notch(project: Project, cushion: Cushion) -> int:
    """How far the post stands in, plus clearance, less half the ease, at least nothing; up to the mark."""
    frame = project.frame
    post = frame.post.width.ceil_to(project.mark)
    twice = 2 * (post + frame.notch_clearance) - cushion.ease
    return max(0, -(-twice.units // (2 * project.mark.units))) if twice > ZERO else 0
