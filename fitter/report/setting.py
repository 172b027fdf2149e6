"""Where a layout is set out, what it uses up, and what the ground asks for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from fitter.domain.fixing import fixing_gaps
from fitter.domain.layout import Box, Layout, Side
from fitter.domain.project import Project
from fitter.report.words import Teller
from rooms.lengths import Length
from rooms.room import Height
from rooms.survey.wording import listed


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
    kinds = {cushion.name: cushion for cushion in project.cushions}
    rows = []
    for row in layout.purchases:
        own, price = kinds[row.cushion].own, kinds[row.cushion].price
        cost = Fraction(0) if not row.buy else None if price is None else row.buy * price
        rows.append(Purchase(row.cushion, row.used, own, row.buy, price, cost))
    return tuple(rows)


def setting_out(project: Project, layout: Layout, tell: Teller) -> Iterator[str]:
    """Where the run that has an edge at its back stands: off that edge, and along it from both corners."""
    if layout.pose.edge is None:
        yield f"It stands free, its main run turned {layout.pose.turned:.1f} degrees from the room's first side."
        gaps = [
            f"the {gap.corner} {tell(gap.length)} from edge {gap.edge}" for gap in fixing_gaps(project.room, layout)
        ]
        yield f"As one faces the seats: {listed(gaps)}."
        return
    edge = project.room.edge(layout.pose.edge)
    names = {point: name for name, point in project.room.corners}
    first, last = names[edge.start], names[edge.end]
    low, high = layout.reach
    run = "main run" if layout.pose.aligned is Side.MAIN else f"{layout.pose.aligned} arm"
    yield f"The back of the {run} stands {tell(layout.off_edge)} off edge {edge.name}."
    whole = "it, with its ends," if len(layout.runs) == 1 and not layout.fills else "the whole, with its ends,"
    begins, ends = _from(low, first, tell), _from(edge.length - high, last, tell)
    yield f"Along {edge.name} {whole} begins {begins} and ends {ends}."
    if len(layout.runs) > 1 or layout.fills:
        yield "Left and right are as one faces the seats."


def _from(distance: Length, corner: str, tell: Teller) -> str:
    if distance.units < 0:
        return f"{tell(-distance)} beyond corner {corner}"
    return f"{tell(distance)} from corner {corner}"


def sizes(box: Box, tell: Teller) -> str:
    """The sides of a box, along the main run first."""
    return f"{tell(box.x1 - box.x0)} × {tell(box.y1 - box.y0)}"


def ground_notes(project: Project, tell: Teller) -> Iterator[tuple[str, str]]:
    """Each obstacle that is not just in the way, by name, and what it asks for."""
    for obstacle in project.room.obstacles:
        apart = f" within {tell(obstacle.clear)}" if obstacle.clear else ""
        if obstacle.hole:
            yield obstacle.name, f"a hole in the ground; nothing stands{apart or ' on it'}"
        elif obstacle.height is Height.LOW:
            yield (
                obstacle.name,
                f"lies low: no post and no end stands on it{apart and f' or{apart}'}, seats may pass over",
            )
        elif obstacle.height is Height.REACH:
            yield obstacle.name, f"has to be reached: nothing stands{apart or ' before it'}"
