"""All sizes that the model computes with, in whole shop marks."""

from __future__ import annotations

from dataclasses import dataclass

from fitter.domain.cushions import Cushion, Option, options
from fitter.domain.frame import RailJoint
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind
from fitter.model.frames import marks
from rooms.lengths import ZERO, Length


@dataclass(frozen=True)
class AngleCut:
    """What the two boards of an angle post cut from a cushion.

    Args:
        deep: how far a board stands in.
        along: how far the board along the main run's back reaches in.
        across: the same of the one along the arm's back, which begins behind it.
    """

    deep: int
    along: int
    across: int


@dataclass(frozen=True)
class OptionSize:
    """One way to lay a cushion.

    Args:
        option: the cushion and whether it lies turned.
        kind: index of the cushion in the file.
        pitch: room per module along the run; along the main run for a corner cushion.
        deck: deck depth.
        seats: sitting places on one cushion.
        notch: what an inside post cuts from it in a corner place, along each side; a spread moves it off by as much.
        angle: what an angle post cuts from it.
    """

    option: Option
    kind: int
    pitch: int
    deck: int
    seats: int
    notch: int
    angle: AngleCut

    def cut(self, kind: CornerKind | None) -> int:
        """How deep a corner treatment cuts into it."""
        return {CornerKind.INSIDE_POST: self.notch, CornerKind.ANGLE_POST: self.angle.deep}.get(kind, 0) if kind else 0

    def spoils(self, kind: CornerKind) -> bool:
        """Whether a corner treatment would cut what must not be cut."""
        return self.cut(kind) > 0 and not self.option.cushion.may_notch


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
        overhang: how far cushions come forward over the front of the wood, off their backs.
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
    overhang: int = 0
    carried: int | None = None

    def beyond(self, *, outside: bool) -> int:
        """How far a corner reaches beyond its corner place, behind either run: its backs, or a thicker outside post."""
        return max(self.back, self.post) if outside else self.back

    @property
    def widest_spread(self) -> int:
        """The most that a spread moves cushions off the backs, beyond the overhang."""
        return max(size.notch for size in self.options)

    @property
    def turn(self) -> int:
        """A corner place whose wood is not deeper than this has no room for its posts and cross rail."""
        return 2 * self.post + self.rail

    @property
    def longest_crossed(self) -> int:
        """A cross rail can bridge a corner place whose wood is no deeper, from post to post at most."""
        return self.span + 2 * self.post

    def held(self, wood: int) -> bool:
        """Whether a cross rail is too long to reach the back rail, and ends at a post on the corner's line."""
        return wood - self.post - self.rail > self.span


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
        overhang=marks(frame.overhang, mark),
        carried=None if frame.carry is None else frame.carry.longest.floor_to(mark) // mark,
    )


def _option(project: Project, option: Option) -> OptionSize:
    mark, cushion, frame = project.mark, option.cushion, project.frame
    thick, wide = frame.angle.thickness.ceil_to(mark), frame.angle.width.ceil_to(mark)
    deep = _cut(project, cushion, thick)
    angle = AngleCut(deep, *(_cut(project, cushion, size) if deep else 0 for size in (wide, thick + wide)))
    return OptionSize(
        option,
        project.cushions.index(cushion),
        option.pitch(mark) // mark,
        option.deck(mark) // mark,
        cushion.seats,
        _cut(project, cushion, frame.post.width.ceil_to(mark)),
        angle,
    )


def _cut(project: Project, cushion: Cushion, wood: Length) -> int:
    """How deep wood that stands so far into a corner place cuts into the cushion there, in marks rounded up.

    It has clearance around it; the cushion lies off it by half its ease and by what it overhangs in front.
    """
    frame, mark = project.frame, project.mark
    twice = 2 * (wood + frame.notch_clearance - frame.overhang.ceil_to(mark)) - cushion.ease
    return max(0, -(-twice.units // (2 * mark.units))) if twice > ZERO else 0
