"""The keys of a project file, level by level, with what each holds."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field

from fitter.domain.cushions import CushionSide
from fitter.domain.frame import EndPanel, RailJoint, SlatFixing, Stance
from fitter.domain.wishes import CornerKind, EndKind, FillWish, Objective, Shape, Side
from fitter.project.fields import (
    Coats,
    Coordinate,
    Count,
    Distance,
    Fall,
    Flag,
    Lean,
    Money,
    Pair,
    Places,
    SeatCount,
    Share,
    Size,
    Text,
    Wood,
    one_of,
    words_of,
)
from rooms.lengths import ZERO
from rooms.room import Height, Hinge, Swing


class Form(BaseModel):
    """One mapping of the file. Parts of it that have keys of their own stay raw and are read apart."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)


class ProjectForm(Form):
    """The top of the file."""

    title: Text | None = None
    note: Text = ""
    units: Any = None
    room: Any = None
    cushions: Any = None
    wish: Any = None
    frame: Any = None
    shop: Any = None


class RoomForm(Form):
    """`room`."""

    tolerance: Distance | None = None
    corners: Any = None
    sides: Any = None
    turns: Any = None
    ties: Any = None
    edges: Any = None
    drops: Any = None
    railings: Any = None
    openings: Any = None
    obstacles: Any = None
    holes: Any = None
    routes: Any = None
    slope: Any = None


class SlopeForm(Form):
    """`room.slope`."""

    fall: Fall = Field(description='how much the floor drops, such as `1/4" per ft` or `2 %`')
    toward: Text = Field(description="the edge that the floor falls toward, such as `CD`")


class OpeningForm(Form):
    """One of `room.openings`."""

    name: Text = Field(description="what it is called")
    edge: Text = Field(description="the edge it stands in, such as `AB`")
    start: Distance = Field(alias="from", description="the length from the edge's first corner to the near jamb")
    width: Size = Field(description="the clear width")
    swing: Annotated[Swing, one_of(words_of(Swing))] = Swing.NONE
    hinge: Annotated[Hinge, one_of(words_of(Hinge))] = Hinge.FIRST


class HoleForm(Form):
    """One of `room.holes`: corners, or at and size, or centre and radius."""

    name: Text = Field(description="what it is called")
    corners: list[Pair] | None = Field(None, description="a list of corners, each `[x, y]`")
    at: Pair | None = Field(None, description="the low corner, `[x, y]`")
    size: tuple[Size, Size] | None = Field(None, description="two lengths, `[width, depth]`")
    centre: Pair | None = Field(None, description="the centre, `[x, y]`")
    radius: Size | None = None


class ObstacleForm(HoleForm):
    """One of `room.obstacles`: a shape, and how it stands in the way."""

    height: Annotated[Height, one_of(words_of(Height))] = Height.FULL
    clear: Distance | None = None
    open_flame: Flag = False


class RouteForm(Form):
    """One of `room.routes`."""

    name: Text | None = None
    start: Text = Field(alias="from", description="the name of an opening")
    end: Text = Field(alias="to", description="the name of an opening")
    width: Size | None = None


class CushionForm(Form):
    """One of `cushions`."""

    name: Text = Field(description="what it is called")
    size: tuple[Size, Size, Size] = Field(description="three lengths, `[width, depth, thickness]`")
    back: tuple[Size, Size, Size] | None = Field(None, description="three lengths, `[width, height, thickness]`")
    measured: tuple[Size, Size, Size] | None = Field(
        None, description="three lengths, `[width, depth, thickness]`, as taped"
    )
    ease: Coordinate = ZERO
    own: Count | None = None
    price: Money | None = None
    may_turn: Flag = False
    may_notch: Flag = True
    seats: Places = 1
    zip: Annotated[CushionSide | None, one_of(words_of(CushionSide))] = None
    condition: Any = None
    ease_most: Distance | None = None


class SeatsForm(Form):
    """`wish.seats`."""

    least: SeatCount = 1
    most: SeatCount | None = None


class EndsForm(Form):
    """`wish.ends`, where the two ends are asked for apart."""

    left: Annotated[EndKind | None, one_of(words_of(EndKind, "any"))] = None
    right: Annotated[EndKind | None, one_of(words_of(EndKind, "any"))] = None


_Objective = Annotated[Objective, one_of(words_of(Objective))]


class WishForm(Form):
    """`wish`."""

    shape: Annotated[Shape | None, one_of(words_of(Shape, "any"))] = None
    seats: Any = None
    hand: Annotated[Side | None, one_of(words_of((Side.LEFT, Side.RIGHT), "any"))] = None
    ends: Any = None
    corner: Annotated[CornerKind | None, one_of(words_of(CornerKind, "any"))] = None
    against: Any = "edge"
    off_wall: Distance | None = None
    legroom: Distance | None = None
    buy_at_most: Count | None = None
    fill: Annotated[FillWish, one_of(words_of(FillWish))] = FillWish.NONE
    prefer: list[_Objective] = Field([], description="a list of objectives, the most important first")
    strict: Any = None


class SectionsForm(Form):
    """`frame.sections`; the names of sections are read with the table of dressed sizes at hand."""

    post: Text | None = None
    rail: Text | None = None
    upright: Text | None = None
    back_rail: Text | None = None
    back_slat: Text | None = None
    seat_slat: Text | None = None
    cleat: Text | None = None
    arm: Text | None = None
    leg: Text | None = None
    foot: Text | None = None
    table: Text | None = None
    angle: Text | None = None


class GapsForm(Form):
    """`frame.slat_gap`, where seat and back are told apart."""

    seat: Size | None = None
    back: Size | None = None


class RevealForm(Form):
    """`frame.reveal`."""

    below: Distance | None = None
    beside: Distance | None = None


_Stance = Annotated[Stance | None, one_of(words_of(Stance))]


class UprightsForm(Form):
    """`frame.uprights`, where ends and corners are told apart."""

    end: _Stance = None
    corner: _Stance = None


class CarryForm(Form):
    """`frame.carry`."""

    way: Size = Field(description="the narrowest clear width on the way in")
    longest: Size = Field(description="the longest piece that can be carried")


class FillForm(Form):
    """`frame.fill`."""

    least: Size | None = None
    widest: Size | None = None
    arm: Size | None = None


class FrameForm(Form):
    """`frame`."""

    sections: Any = None
    measured: Any = None
    back_thickness: Size | None = None
    arm_thickness: Size | None = None
    open_end_thickness: Size | None = None
    notch_clearance: Distance | None = None
    max_span: Size | None = None
    overhang: Distance | None = None
    seat_height: Size | None = None
    arm_height: Size | None = None
    back_height: Size | None = None
    table_height: Size | None = None
    compression: Share | None = None
    lean: Lean | None = None
    slat_gap: Any = None
    reveal: Any = None
    end_panel: Annotated[EndPanel, one_of(words_of(EndPanel))] = EndPanel.MITRED
    rail_joint: Annotated[RailJoint, one_of(words_of(RailJoint))] = RailJoint.SCREWS
    housing: Size | None = None
    uprights: Any = None
    back_span: Size | None = None
    slat_fixing: Annotated[SlatFixing, one_of(words_of(SlatFixing))] = SlatFixing.SCREWS
    foot_height: Size | None = None
    slope: Annotated[bool, one_of({"level": True, "follow": False})] = True
    species: Wood = "Douglas-fir"
    carry: Any = None
    fill: Any = None


class BoardForm(Form):
    """One of `shop.boards`."""

    section: Text = Field(description="a section such as `2x4`")
    length: Size = Field(description="the length of the board")
    price: Money | None = None
    have: Count | None = None


class ShopForm(Form):
    """`shop`."""

    boards: Any = None
    kerf: Distance | None = None
    trim: Distance = ZERO
    longest_carried: Size | None = None
    prices: Text | None = None
    spare: Share | None = None
    boxes: Any = None
    coats: Any = None
    surface: Annotated[bool, one_of({"smooth": False, "rough": True})] = False


class BoxesForm(Form):
    """`shop.boxes`: how many a box holds."""

    screws: SeatCount | None = None
    nails: SeatCount | None = None
    bolts: SeatCount | None = None
    plugs: SeatCount | None = None


class CoatsForm(Form):
    """`shop.coats`."""

    conditioner: Coats | None = None
    stain: Coats | None = None
    varnish: Coats | None = None
