"""Where a layout is set out, what it uses up, and what its cushions leave bare."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.report.words import Teller
from rooms.lengths import Length


@dataclass(frozen=True)
class Purchase:
    """What one kind of cushion costs.

    Args:
        cushion: its name.
        used: in the layout.
        own: as the file says; None if it does not.
        buy: used beyond those owned.
        price: of one; None if the file names none.
        cost: of those to buy; None if it cannot be told.
    """

    cushion: str
    used: int
    own: int | None
    buy: int
    price: Fraction | None
    cost: Fraction | None


def purchases(project: Project, layout: Layout) -> tuple[Purchase, ...]:
    """Each kind of cushion that a layout uses, in the order of the file."""
    used = [module.cushion for module in layout.modules]
    rows = []
    for cushion in project.cushions:
        count = used.count(cushion.name)
        if count:
            buy = max(0, count - (cushion.own or 0))
            cost = Fraction(0) if not buy else None if cushion.price is None else buy * cushion.price
            rows.append(Purchase(cushion.name, count, cushion.own, buy, cushion.price, cost))
    return tuple(rows)


def setting_out(project: Project, layout: Layout, tell: Teller) -> Iterator[str]:
    """Where the main run stands: off its edge, and along it from both corners."""
    if layout.pose.edge is None:
        yield "It stands free."
        return
    edge = project.room.edge(layout.pose.edge)
    names = {point: name for name, point in project.room.corners}
    first, last = names[edge.start], names[edge.end]
    low = min((box.x0 for box in layout.footprint), key=lambda length: length.units)
    high = max((box.x1 for box in layout.footprint), key=lambda length: length.units)
    yield f"The back of the main run stands {tell(layout.off_edge)} off edge {edge.name}."
    yield f"Along it the whole reaches from {_from(low, first, tell)} to {_from(edge.length - high, last, tell)}."


def _from(distance: Length, corner: str, tell: Teller) -> str:
    if distance.units < 0:
        return f"{tell(-distance)} beyond corner {corner}"
    return f"{tell(distance)} from corner {corner}"


def uncovered(layout: Layout, tell: Teller) -> Iterator[str]:
    """What a corner cushion smaller than its place leaves bare."""
    for module in layout.modules:
        if module.cover:
            place, cover = module.box, module.cover
            wide, deep = place.x1 - place.x0, place.y1 - place.y0
            spare = (wide - (cover.x1 - cover.x0), deep - (cover.y1 - cover.y0))
            for bare, length in zip(spare, (deep, wide), strict=True):
                if bare:
                    yield f"The corner cushion leaves a strip of its place bare, {tell(bare)} × {tell(length)}."
