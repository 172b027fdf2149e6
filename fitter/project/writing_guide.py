"""What a starter file says of each key: its meaning, its default, and an example to take up."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from fitter.domain.benchmarks import Topic
from fitter.domain.sections import dressed
from fitter.domain.supplies import Supplies
from fitter.domain.wishes import DEFAULT_ORDER
from fitter.project.defaults import FLAME_CLEAR, FLAME_SOURCE, Defaults, defaults
from fitter.project.tree import Data
from rooms.lengths import ZERO, Length, Unit, format_length


@dataclass(frozen=True)
class Entry:
    """One key.

    Args:
        key: as the file spells it.
        says: what it means, and in brackets what counts where it is left out; one line of comment or more.
        example: what stands there, switched off, where the file says nothing; None for nothing.
    """

    key: str
    says: str = ""
    example: Data = None


Say = Callable[[Length], str]


@dataclass(frozen=True)
class Section:
    """A part of the file with the keys in it; `key` is empty at the top."""

    key: str
    says: str
    entries: tuple[Entry, ...]


def guide(unit: Unit, edges: tuple[str, ...], openings: tuple[str, ...]) -> tuple[Section, ...]:
    """Every key that a project file may have, in the order of a file.

    Args:
        unit: what a bare number means in it; examples are in that system.
        edges: names of the edges, for examples; may be empty.
        openings: names of the openings, for examples; may be empty.
    """
    usual, sizes = defaults(unit), _IMPERIAL if unit.imperial else _METRIC
    say, edge = _teller(unit), edges[0] if edges else "AB"
    return (
        Section("", "", _TOP),
        Section("room", "", (*_outline(say(usual.tolerance), edge, sizes), *_things(unit, sizes, edge, openings))),
        Section("", "", (Entry("cushions", _CUSHIONS, [_seat(sizes)]),)),
        Section("wish", "What is wanted of the seating. Every key may be left out.", _wish(say, usual, edges)),
        Section("frame", "The wood. Every key may be left out; these are the defaults.", _frame(say, usual, sizes)),
        Section("shop", "What the shop sells: no part is longer than a board yields.", _shop(say, usual, sizes)),
    )


def _teller(unit: Unit) -> Say:
    def say(length: Length) -> str:
        return format_length(length, unit, feet=False)

    return say


@dataclass(frozen=True)
class _Sizes:
    """Example sizes that are round in one system; invented."""

    from_: str
    door: str
    centre: tuple[str, str]
    radius: str
    at: tuple[str, str]
    size: tuple[str, str]
    clear: str
    cushion: tuple[str, str, str]
    back: tuple[str, str, str]
    ease: str
    board: str
    trim: str
    fall: str
    drop: str
    railing: str
    ends: tuple[str, str, str]
    heights: tuple[str, str, str]
    way: str
    taped: tuple[str, str]


_IMPERIAL = _Sizes(
    from_='12"',
    door='32"',
    centre=("5'", "5'"),
    radius='8"',
    at=("7'", "4'"),
    size=("2'", "2'"),
    clear='2"',
    cushion=('24"', '24"', '5"'),
    back=('24"', '18"', '6"'),
    ease='1/4"',
    board="8'",
    trim='1/2"',
    fall='1/4" per ft',
    drop="4'",
    railing='42"',
    ends=('2 1/4"', '3 1/2"', '1 1/2"'),
    heights=('24"', '35"', '17"'),
    way='30"',
    taped=("2x4", '1 1/2" x 3 7/16"'),
)
_METRIC = _Sizes(
    from_="300 mm",
    door="800 mm",
    centre=("1500 mm", "1500 mm"),
    radius="200 mm",
    at=("2100 mm", "1200 mm"),
    size=("600 mm", "600 mm"),
    clear="50 mm",
    cushion=("600 mm", "600 mm", "120 mm"),
    back=("600 mm", "450 mm", "150 mm"),
    ease="5 mm",
    board="2400 mm",
    trim="15 mm",
    fall="20 mm per m",
    drop="1200 mm",
    railing="1070 mm",
    ends=("57 mm", "89 mm", "38 mm"),
    heights=("610 mm", "880 mm", "430 mm"),
    way="760 mm",
    taped=("38 x 89 mm", "38 x 88 mm"),
)

_CUSHIONS = """\
The kinds of cushions; at least one is needed.
  size: width, depth and thickness as sold; measured: the same three as taped
  back: width, height and thickness of its back cushion
  ease: slack for each cushion (0); negative where foam may be squeezed
  own: how many are there already; price: of one more, without a currency sign
  (own alone: no more to be had; own and price: more can be bought; else as many as wanted)
  condition: of those owned: good, worn or poor, or how many of each, `{good: 3, worn: 1}`; the best are used first
  ease_most: what `fill: ease` may stretch the ease to (half an inch or 12 mm more)
  may_turn: lie with the depth along the run (no); may_notch: be cut for a post (yes)
  seats: sitting places on one (1); zip: the side with its zip: back, front, left or right as one faces it"""

_OPENINGS = """\
Doors and gates.
  from: from the edge's first corner to the near jamb; width: the clear opening
  swing: in (the leaf turns over the patio: seats keep off what it sweeps), out (away from the
  patio, as into the house) or none (none)
  hinge: the jamb with the hinges, first or second along the edge (first)"""

_OBSTACLES = """\
What seats stay off. Places are [x, y]: x along the first side, y to the left of it.
  centre and radius: of a round one
  at and size: corner with the least x and y of a rectangle, and its extent along x and y
  corners: of any other shape
  clear: distance that seats keep from it (0; with open_flame {flame})
  height: full (nothing stands there), low (a drain: no foot on it, seats may pass over) or
  reach (a tap: its clear ground stays open) (full)
  open_flame: whether it burns openly (no). Its clear distance follows {source}; local codes decide"""

_HOLES = """\
Holes in the ground, such as a tree well: the room ends at their edges. Shapes are those of obstacles."""

_ROUTES = """\
Walkways between two openings that stay open.
  from, to: the names of two openings
  width: the clear width ({width}: 2010 ADA Standards, 403.5.1; a benchmark, not a duty at home)"""

_DROPS = """\
How far it is down to the ground beyond an edge that is no wall, within 36 in of it (not known).
  With `railings` it tells whether seats are near enough to a railing to climb it."""

_STRICT = """\
Benchmarks that a layout must keep: true (all of them), false, or a list of
  {topics}.
  One that is missed is told as a caution; one named here fails a check: exit code 1."""

_SLOPE = """\
How the floor falls toward an edge, square to it (level): `1/4" per ft`, `20 mm per m`, `2 %` or `1:48`."""

_SECTIONS = """\
A nominal name such as 2x6, or the section as measured, such as `1 1/2" x 7 1/4"` or `38 x 140 mm`.
  of backs: upright ({upright}), back_rail ({back_rail}), back_slat ({back_slat})
  of the deck: seat_slat ({seat_slat}), cleat ({cleat}); table ({table}): boards of a table corner
  angle ({angle}): the two boards of an angle post
  arm ({arm}): pieces of an armed end; leg ({leg}): of an open end; foot ({foot}): pads under all that stands"""

_CORNER = """\
What holds the backs where runs meet: any, or one of
  inside post: in the corner of the deck, the cushion is cut for it; outside post: behind both backs;
  angle post: two flat boards above a low post, a narrow cut; low post: it ends under the cushion, backs are joined;
  spread: inside, and all cushions lie so far forward that nothing is cut; table corner: no cushion there"""

_FILL = """\
What takes up the room that is left when all else is best: none, shelf (a slatted shelf beyond an end),
  arm (a wider armed end), ease (more ease for the cushions) or any (whichever of these suits)."""

_FILLS = """\
How wide what fills the room that is left may be.
  least: narrowest shelf; widest: widest shelf (a seat's pitch); arm: widest addition to an armed end"""

_CARRY = """\
What limits the pieces that the frame is carried in (nothing).
  way: narrowest clear width on the way in; longest: longest piece that can be carried"""

_TOP = (
    Entry("title"),
    Entry("note", "", "a second line under the title of the plan"),
    Entry("units", "What a bare number means: in, ft, mm, cm or m. A length with its own unit may be mixed in."),
)


def _outline(tolerance: str, edge: str, sizes: _Sizes) -> tuple[Entry, ...]:
    return (
        Entry(
            "tolerance",
            "How far one tape reading may be off; walls move in and obstacles grow by it, once.",
            tolerance,
        ),
        Entry("corners", "The corners of the outline, each with its coordinates x and y."),
        Entry("sides", "What the tape says, walking once round the edge: AB runs from corner A to corner B."),
        Entry(
            "turns",
            "What one does at a corner: left or right (quarter turns), or its inside angle in degrees.\n"
            "Each counts as good to one degree; a diagonal under `ties` is far better.",
        ),
        Entry("ties", "Diagonals taped across; more than the shape needs is good, since they check the rest."),
        Entry(
            "edges",
            "What stands along each edge: wall (where nothing is said), railing, open or step.",
            {edge: "railing"},
        ),
        Entry("drops", _DROPS, {edge: sizes.drop}),
        Entry("railings", "How high railings stand above the floor (not known).", {edge: sizes.railing}),
    )


def _things(unit: Unit, sizes: _Sizes, edge: str, openings: tuple[str, ...]) -> tuple[Entry, ...]:
    say, usual = _teller(unit), defaults(unit)
    door: Data = {"name": "back door", "edge": edge, "from": sizes.from_, "width": sizes.door, "swing": "in"}
    pot: Data = {"name": "pot", "centre": list(sizes.centre), "radius": sizes.radius, "clear": sizes.clear}
    hole: Data = {"name": "tree well", "at": list(sizes.at), "size": list(sizes.size)}
    one, other = (*openings, "back door", "gate")[:2]
    way: Data = {"from": one, "to": other, "width": say(usual.route_width)}
    return (
        Entry("openings", _OPENINGS, [door]),
        Entry("obstacles", _OBSTACLES.format(flame=format_length(FLAME_CLEAR, unit), source=FLAME_SOURCE), [pot]),
        Entry("holes", _HOLES, [hole]),
        Entry("routes", _ROUTES.format(width=say(usual.route_width)), [way] if len(openings) > 1 else None),
        Entry("slope", _SLOPE, {"fall": sizes.fall, "toward": edge}),
    )


def _seat(sizes: _Sizes) -> dict[str, Data]:
    return {
        "name": "seat cushion",
        "size": list(sizes.cushion),
        "back": list(sizes.back),
        "ease": sizes.ease,
        "own": "4",
        "price": "60",
    }


def _wish(say: Say, usual: Defaults, edges: tuple[str, ...]) -> tuple[Entry, ...]:
    some = [edges[0]] if edges else ["AB"]
    return (
        Entry("shape", "any, straight, L or U.", "any"),
        Entry("seats", "The fewest and the most that will do; a single number is the fewest.", {"least": "1"}),
        Entry("hand", "Side of the short run of an L as one faces the seats: any, left or right.", "any"),
        Entry(
            "ends", "How the runs stop: any, armed or open; or each by its hand, `{left: armed, right: open}`.", "any"
        ),
        Entry("corner", _CORNER, "any"),
        Entry("against", "The longest run's back lies along an edge: edge (any), a list of edges, or free.", some),
        Entry("off_wall", "At most so far from that edge.", say(usual.off_wall)),
        Entry("legroom", "Clear depth in front of the seats.", say(usual.legroom)),
        Entry("buy_at_most", "How many cushions may be bought (any number).", "4"),
        Entry("fill", _FILL, "none"),
        Entry("prefer", "What is made best, in this order.", [str(objective) for objective in DEFAULT_ORDER]),
        Entry("strict", _STRICT.format(topics=", ".join(Topic)), "false"),
    )


def _frame(say: Say, usual: Defaults, sizes: _Sizes) -> tuple[Entry, ...]:
    back, arm, leg = sizes.ends
    return (
        Entry(
            "sections", _SECTIONS.format_map(usual.sections), {name: usual.sections[name] for name in ("post", "rail")}
        ),
        Entry("measured", "Sections as taped on the real boards, by name; they beat the table.", dict([sizes.taped])),
        Entry("max_span", "Longest rail, face to face.", say(usual.max_span)),
        Entry("back_thickness", "Thickness of a back panel (what its parts and its lean make).", back),
        Entry("arm_thickness", "Thickness of an armed end (that of its section).", arm),
        Entry("open_end_thickness", "Thickness of an open end (that of its leg).", leg),
        Entry("notch_clearance", "Air between a post and the notch for it.", say(usual.notch_clearance)),
        Entry("overhang", "How far the cushions come forward over the front of the deck, off their backs.", say(ZERO)),
        *_heights(say, usual, sizes),
        *_joints(say, usual),
        Entry("species", "The wood, for weights, movement and fasteners.", "Douglas-fir"),
        Entry("carry", _CARRY, {"way": sizes.way, "longest": sizes.board}),
        Entry("fill", _FILLS, {"least": say(usual.fill_least), "arm": say(usual.fill_arm)}),
    )


def _heights(say: Say, usual: Defaults, sizes: _Sizes) -> tuple[Entry, ...]:
    """Heights count from the floor at the highest foot."""
    arm, back, table = sizes.heights
    below = "`below` the rails, from the floor (what the seat height leaves); `beside`: front rails stand back."
    return (
        Entry("seat_height", "Floor to the top of the seat cushion (more where it is thick).", say(usual.seat_height)),
        Entry("arm_height", "Floor to the top of an arm (8 in or 200 mm above the seat when sat on).", arm),
        Entry("back_height", "Floor to the top of the backs (where the tallest back cushion ends).", back),
        Entry("table_height", "Floor to the top of a table corner (the seat height).", table),
        Entry("foot_height", "Height of a foot on level ground.", say(_thickness(usual))),
        Entry("slope", "On a sloping floor: level (feet make up for it) or follow.", "level"),
        Entry("compression", "How far a cushion gives way under a person.", "20 %"),
        Entry("lean", "Degrees that the backs lean from upright, 0 to 15.", "0"),
        Entry("reveal", below, {"beside": say(ZERO)}),
    )


def _joints(say: Say, usual: Defaults) -> tuple[Entry, ...]:
    gaps: Data = {"seat": say(usual.slat_gap), "back": say(usual.back_gap)}
    return (
        Entry("slat_gap", "Widest gap between slats; one length, or seat and back apart.", gaps),
        Entry("slat_fixing", "screws or nails.", "screws"),
        Entry("end_panel", "An armed end: mitred (four pieces) or posts (two posts, two rails).", "mitred"),
        Entry("rail_joint", "A rail at a post: screws, ledger (a block below it) or housing (cut in).", "screws"),
        Entry("housing", "Depth of a housing.", say(usual.housing)),
        Entry("uprights", "Of the backs: flat, edge, or `{end: flat, corner: edge}`; on edge with a lean.", "flat"),
        Entry("back_span", "Longest opening between uprights (more for a wider module).", say(usual.back_span)),
    )


def _thickness(usual: Defaults) -> Length:
    """That of the usual foot."""
    inch = usual is defaults(Unit.IN)
    foot = dressed("1x4", Unit.IN if inch else Unit.MM)
    assert foot is not None, "the usual foot is in the table"
    return foot.thickness


def _shop(say: Say, usual: Defaults, sizes: _Sizes) -> tuple[Entry, ...]:
    board: Data = {"section": usual.sections["rail"], "length": sizes.board, "price": "20"}
    return (
        Entry("boards", "`price` of one board, and how many you `have` already, may be left out.", [board]),
        Entry("kerf", "Width of the saw cut.", say(usual.kerf)),
        Entry("trim", "Cut off each end of a board before anything else (0).", sizes.trim),
        Entry("longest_carried", "Longest length that you can carry; longer boards are cut first (any).", sizes.board),
        *_supplies(),
    )


def _supplies() -> tuple[Entry, ...]:
    usual = Supplies()
    boxes: Data = {name: str(getattr(usual, name)) for name in ("screws", "nails", "bolts", "plugs")}
    coats: Data = {name: str(getattr(usual, name)) for name in ("conditioner", "stain", "varnish")}
    return (
        Entry("prices", "A price list beside this file, as comma-separated values: item,price,per (none).", _PRICES),
        Entry("spare", "Screws, nails, bolts and plugs on top of those that are counted.", "10 %"),
        Entry("boxes", "How many a box holds, where the price list does not say it.", boxes),
        Entry("coats", "Coats of finish; 0 for none.", coats),
        Entry("surface", "smooth, or rough (saw-textured or weathered wood takes more finish).", "smooth"),
    )


_PRICES = "prices.csv"
