"""Sizes of the frame, and the boards of the shop."""

from __future__ import annotations

from dataclasses import fields, replace

from fitter.domain.cushions import Cushion
from fitter.domain.frame import Board, Carpentry, Carry, Frame, RailJoint, Section, Shop
from fitter.domain.supplies import Supplies
from fitter.project.carpentry import back_depth, read_carpentry
from fitter.project.defaults import defaults
from fitter.project.fills import check_fills, read_fills
from fitter.project.forms import BoardForm, BoxesForm, CarryForm, CoatsForm, FrameForm, ShopForm
from fitter.project.joinery import check_joinery
from fitter.project.ledger import Ledger
from fitter.project.lumber import THICKEST, Lumber, read_lumber
from fitter.project.tree import Data
from rooms.lengths import ZERO, Length

LONGEST_BOARD = Length.inches(60 * 12)
"""Common practice: a longer board was most likely written in another unit."""
HIGHEST = Length.inches(96)
"""Common practice, likewise."""
WAY = (Length.inches(12), Length.inches(20 * 12))
CARRIED = (Length.inches(24), LONGEST_BOARD)
"""Common practice: a way or a piece beyond these was most likely written in another unit."""


HIGHEST_FOOT = Length.inches("7/2")
"""As thick as the thickest stock that a pad is cut from, its grain lying: common practice."""

THINNEST_POST = Length.inches(2)
"""Below that screws from two sides find no room beside each other: common practice."""

HOUSING_POST = Length.inches(3)
"""The same where rails are let into both sides of it."""

OUT_OF_SQUARE = Length.inches("1/4")
"""How much the sides of one post may differ, as sawn posts do: common practice."""


def read_frame(ledger: Ledger, data: Data, cushions: tuple[Cushion, ...] = ()) -> tuple[Frame, Lumber]:
    """The frame, complete with defaults.

    Args:
        ledger: takes the mistakes.
        data: `frame`.
        cushions: whose sizes the heights follow.

    Returns:
        The frame, and the lumber as it was taped.
    """
    form = ledger.section(FrameForm, data, "frame")
    usual = defaults(ledger.unit)
    lumber = read_lumber(ledger, form.measured)
    said = lumber.written(form.sections)
    post, rail, angle = (said.get(part) or lumber.usual(usual.sections[part]) for part in ("post", "rail", "angle"))
    _check_post(ledger, post, rail)
    _check_sizes(ledger, form)
    made = read_carpentry(ledger, form, lumber, said, rail, cushions)
    if made.rail_joint is RailJoint.HOUSING and THINNEST_POST <= post.width < HOUSING_POST:
        message = f"a post of {ledger.say(post.width)} keeps too little wood beside two housings for screws and bolts"
        help = f"take a post of {ledger.say(HOUSING_POST)} or more, or `rail_joint: ledger`"
        ledger.error("post-too-thin", message, "frame.rail_joint", help)
    back = form.back_thickness
    frame = Frame(
        post=post,
        rail=rail,
        back_thickness=back if back is not None else back_depth(made, rail, cushions, ledger.unit),
        # An end has a rail of its own between its posts or legs, at the height of the others.
        arm_thickness=form.arm_thickness or max(made.arm.thickness, rail.thickness),
        open_end_thickness=form.open_end_thickness or max(made.leg.thickness, rail.thickness),
        notch_clearance=form.notch_clearance if form.notch_clearance is not None else usual.notch_clearance,
        max_span=form.max_span if form.max_span is not None else usual.max_span,
        carpentry=made,
        carry=_carry(ledger, form.carry, cushions),
        overhang=form.overhang or ZERO,
        angle=angle,
        fills=read_fills(ledger, form.fill),
    )
    _check_overhang(ledger, frame, cushions)
    check_joinery(ledger, form, frame, cushions)
    check_fills(ledger, frame)
    return frame, lumber


def _check_sizes(ledger: Ledger, form: FrameForm) -> None:
    """Ask about the unit where a size that was written is absurd."""
    limits = {
        **dict.fromkeys(("back_thickness", "arm_thickness", "open_end_thickness"), THICKEST),
        **dict.fromkeys(("notch_clearance", "overhang"), THICKEST),
        "housing": THICKEST,
        "foot_height": HIGHEST_FOOT,
        **dict.fromkeys(("max_span", "back_span"), LONGEST_BOARD),
        **dict.fromkeys(("seat_height", "arm_height", "back_height", "table_height"), HIGHEST),
    }
    for name, most in limits.items():
        size = getattr(form, name)
        if size is not None:
            _check_most(ledger, name, size, most, f"frame.{name}")


def _check_post(ledger: Ledger, post: Section, rail: Section) -> None:
    """Rails of two runs that butt against a corner post meet each other beside it where it is thinner than they are."""
    if post.width < rail.thickness:
        message = (
            f"a post is {ledger.say(post.width)} wide, and the rails that meet it {ledger.say(rail.thickness)} thick"
        )
        help = "take a post at least as wide as a rail is thick"
        ledger.error("post-too-thin", message, "frame.sections.post", help)
    elif post.width < THINNEST_POST:
        message = f"a post is {ledger.say(post.width)} wide, too thin to hold the screws of two rails and a cleat"
        ledger.error("post-too-thin", message, "frame.sections.post", f"take {ledger.say(THINNEST_POST)} or more")
    elif post.width - post.thickness > OUT_OF_SQUARE:
        message = f"a post of `{post.name}` is no square: {ledger.say(post.thickness)} by {ledger.say(post.width)}"
        help = "rails meet a post on all its sides; take a square one such as `4x4`"
        ledger.error("post-not-square", message, "frame.sections.post", help)


def _check_overhang(ledger: Ledger, frame: Frame, cushions: tuple[Cushion, ...]) -> None:
    """Cushions that hang over by more than a third tip when one sits down on their edge: common practice."""
    key, shallowest = "frame.overhang", min((min(cushion.size[:2]) for cushion in cushions), default=None)
    if shallowest is not None and ledger.clean("cushions", key) and 3 * frame.overhang > shallowest:
        message = f"cushions come {ledger.say(frame.overhang)} over the deck and are {ledger.say(shallowest)} deep"
        help = "a third of a cushion is the most that stays down under a person"
        ledger.error("overhang-too-far", message, key, help)
    if frame.carry is not None and frame.overhang > ZERO:
        message = "a frame that comes apart at its module lines has its front rails end there, not behind the cushions"
        ledger.error("overhang-in-pieces", message, key, "leave out `overhang`, or `carry`")


def _carry(ledger: Ledger, data: Data, cushions: tuple[Cushion, ...]) -> Carry | None:
    """What limits the pieces that the frame is carried in; None for no limit."""
    form = ledger.form(CarryForm, data, "frame.carry") if data is not None else None
    if form is None:
        return None
    for name, (least, most) in (("way", WAY), ("longest", CARRIED)):
        size = getattr(form, name)
        if ledger.unit_known and not least <= size <= most:
            message = f"`{name}` is {ledger.say(size)}, and {ledger.say(least)} to {ledger.say(most)} can be meant"
            ledger.error("size-absurd", message, f"frame.carry.{name}", ledger.ask_unit)
    narrowest = min((min(cushion.size[:2]) + cushion.ease for cushion in cushions), default=None)
    if narrowest is not None and ledger.clean("cushions", "frame.carry") and form.longest <= narrowest:
        message = f"no piece may be longer than {ledger.say(form.longest)}, and one seat takes {ledger.say(narrowest)}"
        help = "a piece is a seat with its end at least; write the longest piece that can be carried in"
        ledger.error("carry-too-short", message, "frame.carry.longest", help)
    return Carry(form.way, form.longest)


def _check_most(ledger: Ledger, name: str, size: Length, most: Length, key: str) -> None:
    if ledger.unit_known and size > most:
        message = f"`{name}` is {ledger.say(size)}, and {ledger.say(most)} is the most"
        ledger.error("size-absurd", message, key, ledger.ask_unit)


def read_shop(ledger: Ledger, data: Data, frame: Frame, lumber: Lumber) -> Shop:
    """The shop; a board of a section that the frame uses carries the frame's name for it."""
    form = ledger.section(ShopForm, data, "shop")
    usual = defaults(ledger.unit)
    kerf = form.kerf if form.kerf is not None else usual.kerf
    for name, size in (("kerf", kerf), ("trim", form.trim)):
        _check_most(ledger, name, size, THICKEST, f"shop.{name}")
    boards = []
    for key, item in ledger.items(form.boards, "shop.boards", "boards"):
        board = ledger.form(BoardForm, item, key)
        section = lumber.section(board.section, f"{key}.section") if board is not None else None
        if board is None or section is None:
            continue
        _check_board(ledger, key, board.length, form.trim)
        boards.append(Board(_name_for(section, frame), board.length, board.price, board.have))
    return Shop(tuple(boards), kerf, form.trim, form.longest_carried, _supplies(ledger, form))


def _supplies(ledger: Ledger, form: ShopForm) -> Supplies:
    """What is said of things to buy besides boards; what is not said has its default."""
    boxes = ledger.section(BoxesForm, form.boxes, "shop.boxes")
    coats = ledger.section(CoatsForm, form.coats, "shop.coats")
    said = {**boxes.model_dump(), **coats.model_dump(), "prices": form.prices, "spare": form.spare}
    return replace(Supplies(rough=form.surface), **{key: value for key, value in said.items() if value is not None})


def _check_board(ledger: Ledger, key: str, length: Length, trim: Length) -> None:
    _check_most(ledger, "length", length, LONGEST_BOARD, f"{key}.length")
    if length <= 2 * trim:
        message = f"nothing is left of a board of {ledger.say(length)} with {ledger.say(trim)} trimmed off each end"
        ledger.error("board-trimmed-away", message, f"{key}.length", "correct `length`, or `trim` under `shop`")


def _name_for(section: Section, frame: Frame) -> str:
    """The frame's name for a section: its own where the frame uses that, else that of one of the same size."""
    parts = [value for part in fields(Carpentry) if isinstance(value := getattr(frame.carpentry, part.name), Section)]
    used = (frame.rail, frame.post, frame.angle, *parts)
    if any(part.name == section.name for part in used):
        return section.name
    size = (section.thickness, section.width)
    return next((part.name for part in used if (part.thickness, part.width) == size), section.name)
