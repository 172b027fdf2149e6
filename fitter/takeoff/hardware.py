"""Screws, nails and bolts with their nuts and washers, and what closes pocket holes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from fitter.domain.drilling import told_drill
from fitter.domain.takeoff import Group, Item, Measure, exactly, pieces
from fitter.domain.woodwork import Fastener, Fixing, Part, PartRole
from fitter.takeoff.case import BOTTLE, CARTRIDGE, Case
from fitter.takeoff.coverage import FILM, FILM_SOURCE, GLUE, volume
from rooms.lengths import Length, Unit

BORE = Length.inches("3/8")
"""Width of a pocket: common practice."""
_PI = Fraction(355, 113)
"""Good to six decimals, which is finer than any cartridge."""


def fasteners(case: Case) -> Iterator[Item]:
    """Each kind, size and length of screw, nail and bolt; then washer and nut for every bolt, spare ones too."""
    counts: dict[tuple[Fixing, str, Length], int] = {}
    for joint in case.woodwork.joints:
        for each in joint.fasteners:
            key = (each.kind, each.size, each.length)
            counts[key] = counts.get(key, 0) + 1
    order = list(Fixing)
    for kind, size, length in sorted(counts, key=lambda key: (order.index(key[0]), key[1], key[2])):
        name = f"{kind} {size} x {case.cut(length)}"
        count = counts[kind, size, length]
        yield _boxed(case, name, count, case.spare(count), _box(case, kind))
    bolts: dict[str, list[int]] = {}
    for (kind, size, _), count in counts.items():
        if kind is Fixing.BOLT:
            bolts.setdefault(size, []).append(count)
    for size in sorted(bolts):
        # Spares are rounded up for each length of bolt, so those of all lengths are more than a share of their sum.
        count, spare = sum(bolts[size]), sum(case.spare(count) for count in bolts[size])
        yield _boxed(case, f"washer {size}", count, spare, case.supplies.bolts, "one under each nut")
        yield _boxed(case, f"nut {size}", count, spare, case.supplies.bolts)


def _box(case: Case, kind: Fixing) -> int:
    said = case.supplies
    return said.bolts if kind is Fixing.BOLT else said.nails if kind is Fixing.NAIL else said.screws


def _boxed(case: Case, name: str, count: int, spare: int, box: int, says: str = "") -> Item:
    item = Item(Group.FASTENERS, name, exactly(count), pack=pieces(box), spare=spare, says=says)
    return case.priced(item)


def told_bore(unit: Unit) -> str:
    """The width of a pocket as plugs and bits for it are sold: to the half millimetre in metric.

    >>> told_bore(Unit.IN), told_bore(Unit.MM)
    ('3/8"', '9.5 mm')
    """
    return told_drill(BORE if unit.imperial else BORE.round_to(Length.millimetres("1/2")), unit)


def pockets(case: Case) -> list[Fastener]:
    """The screws that sit in pockets."""
    return [
        each for joint in case.woodwork.joints for each in joint.fasteners if each.kind is Fixing.POCKET_SCREW
    ]  # fmt: skip


def feet_sealant(case: Case) -> Item | None:
    """Sealant for joints that are not glued: those of feet; None without any."""
    area = sum(touch.area for touch in case.touching if touch.parts in sealed(case))
    if not area:
        return None
    pack = case.can(CARTRIDGE)
    needed = FILM.amount(area)
    says = f"between {len(sealed(case))} feet and what stands on them, {case.cut(FILM.least)} to {case.cut(FILM.most)}"
    return case.priced(
        Item(
            Group.GLUE, "sealant", needed, Measure.VOLUME, pack, says=f"{says} thick", source=FILM_SOURCE.says
        )
    )  # fmt: skip


def sealed(case: Case) -> set[tuple[int, int]]:
    """Pairs of parts, the lower index first, with sealant between them: feet and what stands on them."""
    return _bonded(case, feet=True)


def glued(case: Case) -> set[tuple[int, int]]:
    """Pairs of parts, the lower index first, with glue between them."""
    return _bonded(case, feet=False)


def _bonded(case: Case, *, feet: bool) -> set[tuple[int, int]]:
    parts = case.woodwork.parts
    return {
        (min(joint.parts), max(joint.parts))
        for joint in case.woodwork.joints
        if joint.glued and feet == any(parts[number].role is PartRole.FOOT for number in joint.parts)
    }


def glue(case: Case) -> Item | None:
    """Glue for mitres and housings; None without any."""
    pairs = glued(case)
    area = sum(touch.area for touch in case.touching if touch.parts in pairs)
    if not area:
        return None
    says = f"waterproof, for outdoors; {len(pairs)} joints, {GLUE.told(case.project.unit)}"
    needed = GLUE.amount(area)
    pack = case.can(BOTTLE, needed.most)
    return case.priced(Item(Group.GLUE, "glue", needed, Measure.VOLUME, pack, says=says, source=GLUE.source.says))


def closing(case: Case, sealant: Item | None) -> list[Item]:
    """Plugs for pocket holes, or sealant in their place: both are told, the cheaper one counts.

    Args:
        case: the frame.
        sealant: what is on the list already, of which something is left over.
    """
    screws = pockets(case)
    if not screws:
        return []
    count = len(screws)
    plug = case.priced(
        Item(
            Group.GLUE, f"pocket plug {told_bore(case.project.unit)}", exactly(count),
            pack=pieces(case.supplies.plugs), spare=case.spare(count), says=f"for {count} pocket holes",
            choice="pockets",
        )
    )  # fmt: skip
    filling = exactly(sum((_pocket(case.woodwork.parts, screw) for screw in screws), Fraction(0)))
    more = case.priced(
        Item(
            Group.GLUE, "sealant for pockets", filling, Measure.VOLUME, case.can(CARTRIDGE), "sealant",
            left=_left(sealant),
            says=f"for {count} pocket holes, filled, in place of plugs", choice="pockets",
        )
    )  # fmt: skip
    return _one_chosen([plug, more])


def _left(item: Item | None) -> Fraction:
    """What is over in the packs of an item, at its least use or at its most, whichever leaves less."""
    if item is None or item.packs is None or item.pack is None:
        return Fraction(0)
    least, most = item.packs
    amount = item.pack.amount
    return min(least * amount - item.needed.least, most * amount - item.needed.most)


def _one_chosen(items: list[Item]) -> list[Item]:
    """The cheapest of those with a price counts, at its most; without any price the first one."""
    costs = [(cost.most, number) for number, item in enumerate(items) if (cost := item.cost) is not None]
    best = min(costs)[1] if costs else 0
    told = (replace(item, chosen=number == best) for number, item in enumerate(items))
    return sorted(told, key=lambda item: not item.chosen)


def _pocket(parts: tuple[Part, ...], screw: Fastener) -> Fraction:
    """Millilitres of a pocket: its bore from where the head seats to the face that it begins in.

    A slanting face cuts as much off a bore on one side of its axis as it leaves on the other.
    """
    part = parts[screw.through]
    back = [head - tip for head, tip in zip(screw.head, screw.tip, strict=True)]
    seat = [head - start for head, start in zip(screw.head, part.origin, strict=True)]
    ways = []
    for axis, size in ((part.along, part.length), (part.across, part.width), (part.through, part.thickness)):
        step = sum(a * b for a, b in zip(axis, back, strict=True))
        at = sum(a * b for a, b in zip(axis, seat, strict=True))
        if step:
            ways.append(Fraction((size.units if step > 0 else 0) - at) / step)
    square = sum(step * step for step in back)
    long = Fraction(max(Fraction(0), min(ways))) * round(float(square) ** 0.5)
    return volume(_PI / 4 * BORE.units**2 * long)
