"""Sizes of the frame, and the boards of the shop."""

from __future__ import annotations

import re

from pydantic_core import PydanticCustomError

from fitter.domain.frame import Board, Frame, Section, Shop
from fitter.domain.sections import NOMINAL, dressed
from fitter.project.defaults import defaults
from fitter.project.fields import read_length
from fitter.project.forms import BoardForm, FrameForm, SectionsForm, ShopForm
from fitter.project.ledger import Ledger
from fitter.project.tree import Data
from fitter.project.words import nearest, shown
from rooms.lengths import Length, Unit

THICKEST = Length.inches(24)
LONGEST_BOARD = Length.inches(60 * 12)
"""Common practice: a thicker part or a longer board was most likely written in another unit."""

_NOMINAL = re.compile(r"\d+(/\d+)?x\d+")
_TIMES = re.compile(r"\s*[x×X]\s*")
_UNIT_AFTER = re.compile(r"(mm|cm|m|in|inch|inches|ft|\"|″)\.?$")


def read_section(ledger: Ledger, text: str, key: str) -> Section | None:
    """A section by its nominal name (`2x4`) or its dressed size (`38 x 140 mm`, `1 1/2" x 7 1/4"`).

    Returns:
        The section, thickness before width; None, with the mistake recorded, if it is neither.
    """
    short = _TIMES.sub("x", text.strip())
    if (known := dressed(short, ledger.unit)) is not None:
        return known
    sides = short.split("x")
    if len(sides) != 2:
        message = f"`{shown(text)}` is no section"
        ledger.error("not-a-section", message, key, _section_help(short))
        return None
    # A unit after the second number is meant for both.
    unit = _UNIT_AFTER.search(sides[1])
    if unit is not None and re.fullmatch(r"[\d ./-]+", sides[0]):
        sides[0] += unit[1]
    elif unit is None and ledger.unit.imperial and _NOMINAL.fullmatch(short):
        ledger.error(
            "not-a-section",
            f"`{shown(text)}` is not in the table of dressed sizes",
            key,
            _section_help(short),
        )
        return None
    try:
        thin, wide = sorted(read_length(side, ledger.unit) for side in sides)
    except PydanticCustomError as error:
        message = (error.context or {}).get("message", "")
        ledger.error("not-a-section", f"`{shown(text)}` is no section: {message}", key, _section_help(short))
        return None
    return _sized(ledger, text, thin, wide, key)


def _sized(ledger: Ledger, text: str, thin: Length, wide: Length, key: str) -> Section | None:
    if not thin or wide > THICKEST:
        message = f"section `{shown(text)}` is {ledger.say(thin)} x {ledger.say(wide)}"
        help = f"a dressed size is above zero and at most {ledger.say(THICKEST)}; is the unit right?"
        ledger.error("size-absurd", message, key, help)
        return None
    return Section(section_name(thin, wide, ledger.unit), thin, wide)


def section_name(thin: Length, wide: Length, unit: Unit) -> str:
    """One spelling for an explicit size: in inches where a tape shows them, else in millimetres."""
    if unit.imperial and all(64 % side.inch.denominator == 0 for side in (thin, wide)):
        return f'{_mixed(thin)}" x {_mixed(wide)}"'
    return f"{_decimal(thin)} x {_decimal(wide)} mm"


def _mixed(length: Length) -> str:
    whole, part = divmod(length.inch, 1)
    return " ".join(str(word) for word in (whole, part) if word)


def _decimal(length: Length) -> str:
    return f"{float(length.mm):g}"


def _section_help(text: str) -> str:
    near = nearest(text, NOMINAL)
    more = f"; did you mean `{near}`?" if near else ""
    return f"write a nominal name such as `2x4`, or a dressed size such as `38 x 140 mm`{more}"


def read_frame(ledger: Ledger, data: Data) -> Frame:
    """The frame, complete with defaults."""
    form = ledger.section(FrameForm, data, "frame")
    usual = defaults(ledger.unit)
    sections = ledger.section(SectionsForm, form.sections, "frame.sections")
    found: dict[str, Section] = {}
    for name in ("post", "rail"):
        text = getattr(sections, name)
        given = read_section(ledger, text, f"frame.sections.{name}") if text is not None else None
        found[name] = given or _usual_section(ledger, getattr(usual, name))
    _check_post(ledger, found["post"], found["rail"])
    sizes: dict[str, Length] = {}
    for name in ("back_thickness", "arm_thickness", "open_end_thickness", "notch_clearance", "max_span"):
        value = getattr(form, name)
        sizes[name] = value if value is not None else getattr(usual, name)
        most = LONGEST_BOARD if name == "max_span" else THICKEST
        _check_most(ledger, name, sizes[name], most, f"frame.{name}")
    return Frame(post=found["post"], rail=found["rail"], **sizes)


def _check_post(ledger: Ledger, post: Section, rail: Section) -> None:
    """Rails of two runs that butt against a corner post meet each other beside it where it is thinner than they are."""
    if post.width < rail.thickness:
        message = (
            f"a post is {ledger.say(post.width)} wide, and the rails that meet it {ledger.say(rail.thickness)} thick"
        )
        help = "take a post at least as wide as a rail is thick"
        ledger.error("post-too-thin", message, "frame.sections.post", help)


def _usual_section(ledger: Ledger, text: str) -> Section:
    section = read_section(ledger, text, "frame")
    assert section is not None, f"the default section {text} must be readable"
    return section


def _check_most(ledger: Ledger, name: str, size: Length, most: Length, key: str) -> None:
    if ledger.unit_known and size > most:
        message = f"`{name}` is {ledger.say(size)}, and {ledger.say(most)} is the most"
        ledger.error("size-absurd", message, key, ledger.ask_unit)


def read_shop(ledger: Ledger, data: Data, frame: Frame) -> Shop:
    """The shop; a board of a section that the frame uses carries the frame's name for it."""
    form = ledger.section(ShopForm, data, "shop")
    usual = defaults(ledger.unit)
    kerf = form.kerf if form.kerf is not None else usual.kerf
    for name, size in (("kerf", kerf), ("trim", form.trim)):
        _check_most(ledger, name, size, THICKEST, f"shop.{name}")
    boards = []
    for key, item in ledger.items(form.boards, "shop.boards", "boards"):
        board = ledger.form(BoardForm, item, key)
        section = read_section(ledger, board.section, f"{key}.section") if board is not None else None
        if board is None or section is None:
            continue
        _check_board(ledger, key, board.length, form.trim)
        boards.append(Board(_name_for(section, frame), board.length, board.price, board.have))
    return Shop(tuple(boards), kerf, form.trim, form.longest_carried)


def _check_board(ledger: Ledger, key: str, length: Length, trim: Length) -> None:
    _check_most(ledger, "length", length, LONGEST_BOARD, f"{key}.length")
    if length <= 2 * trim:
        message = f"nothing is left of a board of {ledger.say(length)} with {ledger.say(trim)} trimmed off each end"
        ledger.error("board-trimmed-away", message, f"{key}.length", "correct `length`, or `trim` under `shop`")


def _name_for(section: Section, frame: Frame) -> str:
    size = (section.thickness, section.width)
    same = (part for part in (frame.rail, frame.post) if (part.thickness, part.width) == size)
    return next((part.name for part in same), section.name)
