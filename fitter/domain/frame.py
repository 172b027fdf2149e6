"""Sizes of the wooden frame that the layout depends on, and the boards that yield it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from rooms.lengths import Length


@dataclass(frozen=True)
class Section:
    """A lumber section: the name it is sold by, and its dressed thickness and width."""

    name: str
    thickness: Length
    width: Length


@dataclass(frozen=True)
class Frame:
    """What the layout needs to know of the frame.

    Args:
        post: section of support and corner posts.
        rail: section of front, back and cross rails.
        back_thickness: of the back panel, which stands behind the deck depth.
        arm_thickness: of an end panel at an armed end, outside the run.
        open_end_thickness: of the leg and end rail at an open end, outside the run.
        notch_clearance: air between a post and the notch cut for it.
        max_span: greatest clear opening that a rail may bridge, face to face.
    """

    post: Section
    rail: Section
    back_thickness: Length
    arm_thickness: Length
    open_end_thickness: Length
    notch_clearance: Length
    max_span: Length


@dataclass(frozen=True)
class Board:
    """A board in the shop or on hand."""

    section: str
    length: Length
    price: Fraction | None = None
    have: int | None = None


@dataclass(frozen=True)
class Shop:
    """Where boards come from and how they are cut.

    Args:
        boards: what is sold and what is on hand.
        kerf: width of a saw cut.
        trim: cut off each end of a board before it is used.
        longest_carried: longest piece that can be carried in; None for no limit.
    """

    boards: tuple[Board, ...]
    kerf: Length
    trim: Length
    longest_carried: Length | None = None

    def longest(self, section: str) -> Length | None:
        """Longest part that boards of a section yield, trimmed at both ends; None if no such board is named."""
        yields = [board.length - 2 * self.trim for board in self.boards if board.section == section]
        limits = [length for length in (max(yields, default=None), self.longest_carried) if length is not None]
        return min(limits, default=None)
