"""How two parts that touch are fastened, by what they are and which of their faces meet.

The patterns are common practice; numbers of screws grow with the size of what they hold.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache

from fitter.domain.frame import SlatFixing
from fitter.domain.woodwork import Fixing, PartRole
from fitter.frame.bodies import Body
from rooms.lengths import Length

_FOOT = Length.inches(12)
_THICKEST = Length.inches("9/4")


class How(StrEnum):
    """Where the fasteners of a joint go."""

    STRAIGHT = "straight"
    """Square through the part that is held, in a row along the contact."""
    STAGGERED = "staggered"
    """The same, to and fro across the contact."""
    POCKET = "pocket"
    """At 15° out of the face that butts."""
    MITRE = "mitre"
    """Through one piece into the other's end, across the mitre."""
    BOLTS = "bolts"
    """Right through both; screws where bolts do not fit."""
    NONE = "none"


@dataclass(frozen=True)
class Pattern:
    """How a joint is made.

    Args:
        how: where the fasteners go.
        fixing: what they are.
        least: fewest of them.
        every: widest space between two of a row.
        thickest: part that a screw goes straight through.
        glued: whether glue or sealant goes between.
        turn: when it is made; what has least choice comes first.
        light: whether the least penetration will do.
        spare: whether the part is held elsewhere, so that this joint may go without.
        says: what else there is to say.
    """

    how: How
    fixing: Fixing = Fixing.SCREW
    least: int = 2
    every: Length = _FOOT
    thickest: Length = _THICKEST
    glued: bool = False
    turn: int = 4
    light: bool = False
    spare: bool = False
    says: str = ""


class Side(StrEnum):
    """Which of a part's faces touches."""

    END = "end"
    LONG = "long face"
    SLANTED = "slanted end"


class Toward(StrEnum):
    """Which way the second part lies from the part that is held."""

    UP = "up"
    DOWN = "down"
    LEVEL = "level"


@dataclass(frozen=True)
class _Rule:
    held: frozenset[PartRole]
    into: frozenset[PartRole]
    sides: tuple[Side, Side]
    toward: tuple[Toward, ...]
    pattern: Pattern

    def met(self, way: Meeting) -> bool:
        """Whether it is about this contact of parts that it speaks of."""
        return way.toward in self.toward and way.sides() == self.sides


_R = PartRole
_STANDING = frozenset((_R.SUPPORT_POST, _R.BACK_POST, _R.INNER_POST, _R.CORNER_POST))
_ENDS = frozenset((_R.ARM_PIECE, _R.ARM_POST, _R.LEG))
_LEGS = frozenset((_R.SHELF_LEG,))
_SEAT_RAILS = frozenset((_R.FRONT_RAIL, _R.BACK_RAIL, _R.CROSS_RAIL, _R.END_RAIL, _R.ARM_RAIL))
_BACK_RAILS = frozenset((_R.BOTTOM_RAIL, _R.TOP_RAIL))
_SLATS = frozenset((_R.SEAT_SLAT, _R.BACK_SLAT))
_CLEATS = frozenset((_R.CLEAT, _R.SHORT_CLEAT))
_LONG, _END = Side.LONG, Side.END
_UP, _DOWN, _LEVEL = Toward.UP, Toward.DOWN, Toward.LEVEL

BOLTED = Pattern(How.BOLTS, Fixing.BOLT, turn=1)
FOOT = Pattern(How.STRAIGHT, thickest=_FOOT, glued=True, light=True, turn=0, says="sealant between")
POCKETED = Pattern(How.POCKET, Fixing.POCKET_SCREW, turn=2)
NOTHING = Pattern(How.NONE)
JOINED = Pattern(How.STAGGERED, every=Length.inches("5/2"), turn=1)
"""Of two backs that hold each other: more than 10 diameters apart along the grain, to and fro, which is no hinge."""


def _rule(
    held: frozenset[PartRole] | PartRole, side: Side, into: frozenset[PartRole] | PartRole, other: Side,
    toward: tuple[Toward, ...], pattern: Pattern,
) -> _Rule:  # fmt: skip
    one = frozenset((held,)) if isinstance(held, PartRole) else held
    two = frozenset((into,)) if isinstance(into, PartRole) else into
    return _Rule(one, two, (side, other), toward, pattern)


_ANY = (_UP, _DOWN, _LEVEL)
_RULES = (
    _rule(_STANDING, _LONG, _STANDING, _LONG, (_LEVEL,), BOLTED),
    _rule(_R.FOOT, _LONG, _STANDING | _ENDS | _LEGS, _END, (_UP,), FOOT),
    _rule(_R.FOOT, _LONG, _STANDING | _ENDS | _LEGS, _LONG, (_UP,), FOOT),
    _rule(
        _SEAT_RAILS | _BACK_RAILS, _END, _STANDING | _ENDS | _SEAT_RAILS | _BACK_RAILS, _LONG, (_LEVEL,),
        POCKETED,
    ),
    _rule(_BACK_RAILS, _END, _R.UPRIGHT, _LONG, (_LEVEL,), POCKETED),
    _rule(_R.BACK_RAIL, _END, _R.UPRIGHT, _LONG, (_LEVEL,), replace(POCKETED, spare=True, turn=3)),
    _rule(
        _R.ARM_PIECE, Side.SLANTED, _R.ARM_PIECE, Side.SLANTED, _ANY,
        Pattern(How.MITRE, glued=True, turn=1, says="the mitre glued"),
    ),
    _rule(_R.CLEAT, _LONG, _SEAT_RAILS, _LONG, (_LEVEL,), Pattern(How.STAGGERED, every=Length.inches(8))),
    _rule(_R.SHORT_CLEAT, _LONG, _STANDING | _ENDS | _SEAT_RAILS, _LONG, (_LEVEL,), Pattern(How.STAGGERED, turn=0)),
    _rule(
        _R.LEDGER, _LONG, _STANDING | _ENDS, _LONG, (_LEVEL,),
        Pattern(How.STAGGERED, turn=0, says="the rail bears on it"),
    ),
    _rule(_R.SEAT_SLAT, _LONG, _CLEATS | _SEAT_RAILS, _LONG, (_DOWN,), Pattern(How.STRAIGHT, turn=6)),
    _rule(_R.BACK_SLAT, _LONG, _BACK_RAILS, _LONG, _ANY, Pattern(How.STRAIGHT, turn=6)),
    _rule(_R.UPRIGHT, _LONG, _STANDING - {_R.CORNER_POST} | {_R.BACK_RAIL}, _LONG, (_LEVEL,), BOLTED),
    _rule(
        _R.UPRIGHT, _LONG, _ENDS | _SEAT_RAILS | {_R.UPRIGHT, _R.CORNER_POST}, _LONG, (_LEVEL,),
        Pattern(How.STRAIGHT, turn=3),
    ),
    _rule(
        _R.CORNER_BOARD, _LONG, _R.CORNER_BOARD, _LONG, (_LEVEL,),
        Pattern(How.STRAIGHT, every=Length.inches(6), turn=0, says="before they are set in the corner"),
    ),
    _rule(
        _R.CORNER_BOARD, _LONG, _R.UPRIGHT, _LONG, (_LEVEL,),
        Pattern(How.STAGGERED, every=Length.inches(6), turn=5),
    ),
    _rule(_R.CORNER_BOARD, _LONG, _BACK_RAILS, _LONG, (_LEVEL,), Pattern(How.STRAIGHT, turn=5)),
    _rule(_R.SEAT_SLAT, _LONG, _R.TABLE_BEARER, _LONG, (_UP,), Pattern(How.STRAIGHT, turn=7)),
    _rule(
        _R.TABLE_BEARER, _LONG, _SEAT_RAILS, _LONG, (_DOWN,),
        Pattern(How.POCKET, Fixing.POCKET_SCREW, turn=5, spare=True),
    ),
    _rule(_R.TABLE_BEARER, _LONG, _STANDING, _LONG, (_LEVEL,), Pattern(How.STRAIGHT, turn=4)),
    _rule(_R.TABLE_BOARD, _LONG, _R.TABLE_BEARER, _LONG, (_DOWN,), Pattern(How.STRAIGHT, turn=7)),
    _rule(_R.ARM_BEARER, _LONG, _ENDS, _LONG, (_LEVEL,), Pattern(How.STAGGERED, every=Length.inches(8), turn=3)),
    _rule(_R.ARM_TIE, _END, _ENDS, _LONG, (_LEVEL,), POCKETED),
    _rule(_R.ARM_BOARD, _LONG, _R.ARM_BEARER, _LONG, (_DOWN,), Pattern(How.STRAIGHT, turn=7)),
    _rule(_R.SHELF_LEG, _LONG, _ENDS, _LONG, (_LEVEL,), Pattern(How.STRAIGHT, turn=3)),
    _rule(_R.SHELF_RAIL, _END, _R.SHELF_LEG, _LONG, (_LEVEL,), POCKETED),
    _rule(_R.SHELF_RAIL, _LONG, _ENDS, _LONG, (_LEVEL,), Pattern(How.STRAIGHT, turn=4, spare=True)),
    _rule(_R.SHELF_SLAT, _LONG, _R.SHELF_RAIL, _LONG, (_DOWN,), Pattern(How.STRAIGHT, turn=7)),
    _rule(_R.SHELF_SLAT, _LONG, _R.SHELF_LEG, _END, (_DOWN,), Pattern(How.STRAIGHT, turn=7, light=True)),
)  # fmt: skip


@dataclass(frozen=True)
class Meeting:
    """Two parts that touch, as the rules see them.

    Args:
        held: the part that is held, if it is fastened.
        into: the other.
        normal: unit normal from the held part into the other, in the layout frame.
    """

    held: Body
    into: Body
    normal: tuple[float, float, float]

    def sides(self) -> tuple[Side, Side]:
        """Which face of each touches."""
        return _side(self.held, self.normal), _side(self.into, self.normal)

    @property
    def toward(self) -> Toward:
        """Which way the second lies; level as long as it is not more than 45° off."""
        z = self.normal[2]
        return _UP if z > 0.7 else _DOWN if z < -0.7 else _LEVEL

    def through(self) -> float:
        """How thick the held part is along the normal."""
        way = self.held.turned(self.normal)
        return sum(abs(share) * size for share, size in zip(way, self.held.size, strict=True))

    def turned(self) -> Meeting:
        """The same, seen from the other part."""
        x, y, z = self.normal
        return Meeting(self.into, self.held, (-x, -y, -z))


def _side(body: Body, normal: tuple[float, float, float]) -> Side:
    found = body.axis_of(body.turned(normal))
    if found is None:
        return Side.SLANTED
    return Side.LONG if found[0] else Side.END


def pattern(meeting: Meeting, slats: SlatFixing, *, joined: bool = False) -> tuple[Meeting, Pattern]:
    """How a contact is fastened, and which of its parts is held.

    Args:
        meeting: the contact, either way round.
        slats: what holds slats down.
        joined: whether backs that meet have to hold each other.
    """
    ways = sorted((meeting, meeting.turned()), key=Meeting.through)
    for rule, order in _about(ways[0].held.part.role, ways[0].into.part.role):
        if rule.met(ways[order]):
            return ways[order], _adapted(ways[order], rule.pattern, slats, joined)
    return ways[0], NOTHING


@lru_cache(maxsize=1024)
def _about(one: PartRole, other: PartRole) -> tuple[tuple[_Rule, int], ...]:
    """The rules that speak of two roles, in order, and which of the two is held."""
    orders = ((one, other), (other, one))
    return tuple(
        (rule, order)
        for rule in _RULES
        for order, (held, into) in enumerate(orders)
        if held in rule.held and into in rule.into
    )


def _adapted(way: Meeting, found: Pattern, slats: SlatFixing, joined: bool) -> Pattern:
    roles = way.held.part.role, way.into.part.role
    apart = way.held.part.piece != way.into.part.piece
    if apart and roles == (_R.UPRIGHT, _R.UPRIGHT):
        return BOLTED
    if joined and roles == (_R.UPRIGHT, _R.UPRIGHT) and way.held.part.run is not way.into.part.run:
        return JOINED
    if slats is SlatFixing.NAILS and roles[0] in _SLATS and roles[1] is not _R.TABLE_BEARER:
        return replace(found, fixing=Fixing.NAIL)
    return found
