"""Sizes of the wooden frame and how it is built, and the boards that yield it."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from fitter.domain.supplies import Supplies
from rooms.lengths import ZERO, Length


@dataclass(frozen=True)
class Section:
    """A lumber section.

    Args:
        name: it is sold by.
        thickness: dressed, the smaller side.
        width: dressed, the larger side.
        measured: whether the size was taped on the real boards, and not taken from a table.
    """

    name: str
    thickness: Length
    width: Length
    measured: bool = False


class Stance(StrEnum):
    """How an upright of a back panel stands: its wide face to the front, or its narrow one."""

    FLAT = "flat"
    EDGE = "edge"


class EndPanel(StrEnum):
    """What an armed end is made of: four mitred pieces around a rectangle, or two posts with two rails."""

    MITRED = "mitred"
    POSTS = "posts"


class RailJoint(StrEnum):
    """What carries a rail at a post: its pocket screws alone, a ledger below it, or a housing cut into the post."""

    SCREWS = "screws"
    LEDGER = "ledger"
    HOUSING = "housing"


class SlatFixing(StrEnum):
    """What holds a slat down on its bearing."""

    SCREWS = "screws"
    NAILS = "nails"


def _section(name: str, thickness: str, width: str) -> Section:
    return Section(name, Length.inches(thickness), Length.inches(width))


_1X4 = _section("1x4", "3/4", "7/2")
_DECKING = _section("5/4x6", "1", "11/2")
_2X2 = _section("2x2", "3/2", "3/2")
_2X4 = _section("2x4", "3/2", "7/2")
_4X4 = _section("4x4", "7/2", "7/2")
_SEAT_HEIGHT = Length.inches(17)
_SLAT_GAP = Length.inches(2)
_BACK_GAP = Length.inches("13/4")
_HOUSING = Length.inches("1/2")
_BACK_SPAN = Length.inches(48)
_NARROWEST_SHELF = Length.inches(6)
_WIDEST_ARM = Length.inches(12)
_FOOT_HEIGHT = Length.inches("3/4")


@dataclass(frozen=True)
class FillLimits:
    """How wide what fills the room beyond an end may be; the defaults are common practice.

    Args:
        least: narrowest shelf that is worth building.
        widest: widest shelf; None for a seat's pitch.
        arm: widest addition to an armed end.
    """

    least: Length = _NARROWEST_SHELF
    widest: Length | None = None
    arm: Length = _WIDEST_ARM


@dataclass(frozen=True)
class Carpentry:
    """How the frame is built; the layout does not depend on it. Heights are from the floor at the highest foot.

    The defaults, in inches, are common practice; a project file in a metric unit gets round sizes of its own.

    Args:
        upright: section of the uprights of back panels.
        back_rail: section of their top and bottom rails.
        back_slat: section of their slats, which stand behind the rails.
        seat_slat: section of the slats of the deck.
        cleat: section of cleats and ledgers.
        arm: section of the pieces and posts of an armed end.
        leg: section of the legs of an open end.
        foot: section of the pads under whatever stands on the floor.
        table: section of the boards of a table corner.
        seat_height: of the top of the seat cushion, nobody on it.
        arm_height: of the top of an armed end; None for 8 in above the cushion that is sat on.
        back_height: of the top of the back panels; None for the height of the back cushion above the seat.
        table_height: of a table corner; None for the height of the seat.
        compression: share of its thickness that a cushion gives way under a person.
        lean: of the back, degrees from upright, 0 to 15.
        slat_gap: widest gap between seat slats.
        back_gap: widest gap between back slats.
        reveal_below: gap between the floor and the rails; None for what the seat height leaves.
        reveal_beside: how far front rails stand back from the front of the deck.
        end_panel: what an armed end is made of.
        rail_joint: what carries a rail at a post.
        housing: depth of a housing, where they are chosen.
        upright_at_end: how uprights stand at ends and along the run.
        upright_at_corner: how they stand where two backs meet.
        back_span: longest clear opening between the uprights of a back panel.
        slat_fixing: what holds a slat down.
        foot_height: height of a foot on level ground.
        level: whether feet make up for a slope of the floor; else the seat follows it.
        species: the wood, a name of `fitter.domain.species`.
    """

    upright: Section = _2X4
    back_rail: Section = _2X4
    back_slat: Section = _1X4
    seat_slat: Section = _DECKING
    cleat: Section = _2X2
    arm: Section = _4X4
    leg: Section = _2X4
    foot: Section = _1X4
    table: Section = _DECKING
    seat_height: Length = _SEAT_HEIGHT
    arm_height: Length | None = None
    back_height: Length | None = None
    table_height: Length | None = None
    compression: Fraction = Fraction(1, 5)
    lean: Fraction = Fraction(0)
    slat_gap: Length = _SLAT_GAP
    back_gap: Length = _BACK_GAP
    reveal_below: Length | None = None
    reveal_beside: Length = ZERO
    end_panel: EndPanel = EndPanel.MITRED
    rail_joint: RailJoint = RailJoint.SCREWS
    housing: Length = _HOUSING
    upright_at_end: Stance = Stance.FLAT
    upright_at_corner: Stance = Stance.FLAT
    back_span: Length = _BACK_SPAN
    slat_fixing: SlatFixing = SlatFixing.SCREWS
    foot_height: Length = _FOOT_HEIGHT
    level: bool = True
    species: str = "Douglas-fir"


@dataclass(frozen=True)
class Carry:
    """How the frame gets to its place.

    Args:
        way: narrowest clear width on the way in.
        longest: longest piece that can be carried.
    """

    way: Length
    longest: Length


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
        carpentry: how it is built.
        carry: what limits the pieces that it is carried in; None for no limit.
        overhang: how far the cushions come forward over the front of the deck; they keep as far off the backs.
        angle: section of the two flat boards of an angle post.
        fills: limits of what fills the room that is left.
    """

    post: Section
    rail: Section
    back_thickness: Length
    arm_thickness: Length
    open_end_thickness: Length
    notch_clearance: Length
    max_span: Length
    carpentry: Carpentry = field(default_factory=Carpentry)
    carry: Carry | None = None
    overhang: Length = ZERO
    angle: Section = _1X4
    fills: FillLimits = field(default_factory=FillLimits)

    @property
    def backs_meet(self) -> bool:
        """Whether two backs touch at a corner, so that they can be joined: plumb ones, flat uprights at the corner."""
        return not self.carpentry.lean and self.carpentry.upright_at_corner is Stance.FLAT


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
        longest_carried: longest piece that can be carried; longer boards are cut first; None for no limit.
        supplies: how everything else to buy is counted.
    """

    boards: tuple[Board, ...]
    kerf: Length
    trim: Length
    longest_carried: Length | None = None
    supplies: Supplies = field(default_factory=Supplies)

    def longest(self, section: str) -> Length | None:
        """Longest part that boards of a section yield, trimmed at both ends; None if no such board is named."""
        yields = [board.length - 2 * self.trim for board in self.boards if board.section == section]
        limits = [length for length in (max(yields, default=None), self.longest_carried) if length is not None]
        return min(limits, default=None)
