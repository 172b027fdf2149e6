"""What the maker has to know of a frame before it is cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitter.domain.findings import Finding, Severity
from fitter.domain.frame import RailJoint
from fitter.domain.woodwork import Part, PartRole, Spread
from fitter.frame.strips import Site
from rooms.lengths import Length, format_length

_BOLTED_ON = {
    PartRole.UPRIGHT, PartRole.BOTTOM_RAIL, PartRole.TOP_RAIL, PartRole.BACK_SLAT, PartRole.CORNER_POST,
    PartRole.TABLE_BEARER, PartRole.TABLE_BOARD, PartRole.SHELF_LEG, PartRole.SHELF_RAIL, PartRole.SHELF_SLAT,
    PartRole.ARM_BOARD,
}  # fmt: skip
"""Parts that are carried in by themselves: backs, corner posts, tables and shelves are fixed in their place."""


def findings(site: Site, parts: Sequence[Part], spreads: Sequence[Spread], fall: Length) -> tuple[Finding, ...]:
    """Cautions and notes, in a fixed order.

    Args:
        site: for the sizes.
        parts: of the frame.
        spreads: of its slats.
        fall: of the floor under it.
    """
    return tuple(
        finding
        for found in (
            _resting_on_screws(site), _too_long(site, parts), _other_seats(site), _wider_gaps(site, spreads),
            _sloping(site, fall), _too_wide(site, parts),
        )
        for finding in found
    )  # fmt: skip


def _resting_on_screws(site: Site) -> Iterator[Finding]:
    joint, made = site.options.rail_joint, site.levels
    if joint is RailJoint.SCREWS:
        message = "pocket screws alone carry the seat rails at their posts"
        help = "`frame.rail_joint: ledger` puts a block under each rail, `housing` lets it into the post"
        yield _finding(site, "rails-on-screws", message, "frame.rail_joint", help, Severity.NOTE)
    elif joint is RailJoint.LEDGER and made.rail_bottom <= made.foot:
        message = "there is no room for ledgers between the floor and the rails"
        help = "raise the seat, or take `frame.rail_joint: housing`"
        yield _finding(site, "no-room-for-ledgers", message, "frame.rail_joint", help)


def _too_long(site: Site, parts: Sequence[Part]) -> Iterator[Finding]:
    """Rails and cleats are kept to what boards yield; a post or a slat cannot be spliced."""
    seen = set()
    for part in parts:
        longest = site.project.shop.longest(part.section.name)
        if longest is None or part.length <= longest or (part.role, part.length) in seen:
            continue
        seen.add((part.role, part.length))
        name, told = part.section.name, _told(site, part.length)
        message = (
            f"{part.role} {part.mark} is {told} long, no {name} in the shop yields more than {_told(site, longest)}"
        )
        yield _finding(site, "no-board-long-enough", message, "shop.boards", "name a longer board under `shop.boards`")


def _other_seats(site: Site) -> Iterator[Finding]:
    """All runs share one deck, so a thicker cushion makes a higher seat."""
    kinds = {cushion.name: cushion for cushion in site.project.cushions}
    used = dict.fromkeys(module.cushion for module in site.layout.modules if module.cushion)
    for name in used:
        height = site.levels.deck + kinds[name].size[2]
        if height != site.levels.seat:
            message = f"on `{name}` the seat is {_told(site, height)} high, elsewhere {_told(site, site.levels.seat)}"
            yield _finding(site, "seat-heights-differ", message, "cushions", "the decks of all runs lie level")


def _wider_gaps(site: Site, spreads: Sequence[Spread]) -> Iterator[Finding]:
    """A gap may be asked narrower than the wood moves."""
    for role, key in ((PartRole.SEAT_SLAT, "slat_gap"), (PartRole.BACK_SLAT, "back_gap")):
        widest = max((max(spread.gaps) for spread in spreads if spread.role is role), default=Length(0))
        asked = site.options.slat_gap if role is PartRole.SEAT_SLAT else site.options.back_gap
        if widest > asked:
            message = f"{role}s stand up to {_told(site, widest)} apart, not {_told(site, asked)}"
            help = f"narrower gaps would close when {site.options.species} swells from 6 to 14 % moisture content"
            yield _finding(site, "gap-would-close", message, f"frame.{key}", help)


def _sloping(site: Site, fall: Length) -> Iterator[Finding]:
    if not fall:
        return
    told = _told(site, fall)
    if site.options.level:
        message = f"the floor falls {told} under the frame; feet of their own heights keep the seat level"
    else:
        message = f"the seat follows the floor, which falls {told} under the frame"
    help = "`frame.slope: follow` lets the seat follow the floor, `level` makes up for it"
    yield _finding(site, "floor-falls", message, "room.slope", help, Severity.NOTE)


def _too_wide(site: Site, parts: Sequence[Part]) -> Iterator[Finding]:
    """Whether each piece, its back taken off, passes the narrowest way on one of its sides."""
    carry = site.project.frame.carry
    if carry is None:
        return
    for piece in sorted({part.piece for part in parts}):
        corners = [
            corner for part in parts if part.piece == piece and part.role not in _BOLTED_ON for corner in part.corners
        ]
        sizes = [max(c[axis] for c in corners) - min(c[axis] for c in corners) for axis in range(3)]
        least = Length(-(-min(sizes) // 1))
        if least > carry.way:
            message = (
                f"piece {piece} is {_told(site, least)} across at its narrowest, the way in {_told(site, carry.way)}"
            )
            help = "build it in its place, or take shallower cushions or a lower arm"
            yield _finding(site, "too-wide-to-carry", message, "frame.carry.way", help)


def _told(site: Site, length: Length) -> str:
    return format_length(length, site.project.unit, feet=False)


def _finding(
    site: Site, code: str, message: str, key: str, help: str, severity: Severity = Severity.CAUTION
) -> Finding:
    return Finding(code, message, key, site.project.place(key), help, severity=severity)
