"""Why nothing fits, to files: the plan of a layout that a change would make fit, with what it clashes with now."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from fitter.checking import check_layout, route_widths
from fitter.domain.layout import Box, End, Layout, RouteWidth
from fitter.domain.project import Project
from fitter.domain.requirements import walked
from fitter.domain.why import Cure, Ease, Why
from fitter.drawing import write_pages
from fitter.drawing.clash import Clashing, clash_area
from fitter.drawing.clash_page import clash_page
from fitter.report.why_words import clause, headline
from fitter.report.words import counted, teller
from fitter.workflow.cures.written import with_changes
from fitter.workflow.solving import solved_apart
from rooms.lengths import ZERO, Length

_ROUTE = "room.routes."
_ROOM = (Ease.READING, Ease.EDGE, Ease.OBSTACLE)


def write_why(
    project: Project, why: Why, folder: Path, *, sheet: str | None = None, limit: float | None = None
) -> list[Path]:
    """Draw what clashes and write it under the name of the project file: `landing-why.pdf`, `.svg` and `.png`.

    Args:
        project: that is impossible.
        why: with its cures, as far as they are known.
        folder: made if it is not there.
        sheet: a paper that must be used; None to choose.
        limit: seconds to find the best layout in that shows it; None for no limit.

    Returns:
        The files written; none where no layout is known that could be drawn.

    Raises:
        ValueError: the room is too large for the sheet.
        OSError: a file cannot be written.
    """
    found = picture(project, why, limit)
    if found is None:
        return []
    shown, says = found
    page = clash_page(project, shown, says, sheet)
    folder.mkdir(parents=True, exist_ok=True)
    return write_pages(page, folder / f"{Path(project.file).stem}-why")


def picture(project: Project, why: Why, limit: float | None = None) -> tuple[Clashing, tuple[str, ...]] | None:
    """What is drawn, and what the title block says; None where no layout is known."""
    clash, tell = why.clashes[0], teller(project.unit)
    cure = _cure(why)
    layout = _best(project, cure, limit) if cure else why.spared
    if layout is None:
        return None
    layout = replace(layout, routes=_widths(project, cure, layout))
    facts = {fact.id for fact in clash.facts}
    narrow = tuple(
        width.name
        for width in layout.routes
        if f"route:{width.name}" in facts and width.clear is not None and width.clear < width.asked
    )
    absent = _absent(project, layout)
    edge = next((fact.removeprefix("edge:") for fact in cure.facts if fact.startswith("edge:")), "") if cure else ""
    with_it = (
        f"The room is drawn as taped, the seats as they would stand with this change: {cure.says}." if cure else ""
    )
    drawn = with_it or f"Drawn without: {_spared(project, why)}."
    further = () if cure and cure.ease is not Ease.SEATS else _next(project, layout)
    if absent:
        missing = f"{counted(len(absent), 'cushion')} missing"
    else:
        missing = "no place for the next cushion" if further else clash.missing
    shown = Clashing(layout, edge, narrow, absent, (missing,) if missing else (), further)
    return shown, (headline(project, clash, tell), drawn)


def _cure(why: Why) -> Cure | None:
    """The cure whose layout shows best what clashes now: it has all that was wanted, if any has.

    A narrower route first where one clashes, then more cushions, then the room that is changed the least.
    """
    facts = {fact.id for fact in why.clashes[0].facts}
    about = [cure for cure in why.cures if facts.intersection(cure.facts)]
    for ease in (Ease.ROUTE, Ease.CUSHIONS):
        if ease is Ease.ROUTE and not walked(facts):
            continue
        if same := [cure for cure in about if cure.ease is ease]:
            return same[0]
    room = [cure for cure in why.cures if cure.ease in _ROOM]
    return min(room, key=lambda cure: cure.step) if room else next(iter(about or why.cures), None)


def _best(project: Project, cure: Cure, limit: float | None) -> Layout:
    """The best layout with a change made that has as many seats as are wanted; else the one that the cure came with."""
    changed = with_changes(project, cure.changes)
    if changed is None:
        return cure.layout
    wish = changed.wish if changed.wish.most is not None else replace(changed.wish, most=changed.wish.least)
    asked = replace(changed, wish=wish)
    found = solved_apart(asked, 1, limit).answers[0].layout
    return cure.layout if found is None or check_layout(asked, found) else found


def _widths(project: Project, cure: Cure | None, layout: Layout) -> tuple[RouteWidth, ...]:
    """How wide each route is, and was asked to be; as wide a one counts at its doors as the change makes it."""
    widths = route_widths(project, layout)
    routes = cure is not None and all(not each.key.startswith("room.") or _ROUTE in each.key for each in cure.changes)
    changed = with_changes(project, cure.changes) if cure is not None and routes else None
    if changed is None:
        return widths
    clear = {width.name: width.clear for width in route_widths(changed, layout)}
    return tuple(replace(width, clear=clear[width.name]) for width in widths)


def _absent(project: Project, layout: Layout) -> tuple[int, ...]:
    """The last places of each kind of cushion beyond those that can be had."""
    free = project.wish.buy_most
    found: list[int] = []
    for kind in project.cushions:
        places = [n for n, module in enumerate(layout.modules) if module.cushion == kind.name]
        had = kind.stock if kind.stock is not None else None if free is None else (kind.own or 0) + free
        found += places[had:] if had is not None else []
    return tuple(found)


def _next(project: Project, layout: Layout) -> tuple[Box, ...]:
    """Where one more cushion would lie, with the end beyond it, at that end where least of it clashes."""
    places = [boxes for end in layout.ends if (boxes := _beyond(layout, end))]
    clashing = [boxes for boxes in places if clash_area(project, layout, boxes)]
    # One that clashes with nothing that can be hatched shows nothing.
    if len(clashing) < len(places) or not clashing:
        return ()
    return min(clashing, key=lambda boxes: clash_area(project, layout, boxes))


def _beyond(layout: Layout, end: End) -> tuple[Box, ...]:
    """A module beyond the last one of a run, and the end moved out by it."""
    run = layout.run(end.run)
    if run is None:
        return ()
    deck, box, pitch = run.deck, end.box, run.pitch
    if box.x1 <= deck.x0:
        return Box(deck.x0 - pitch, deck.y0, deck.x0, deck.y1), _moved(box, -pitch, ZERO)
    if box.x0 >= deck.x1:
        return Box(deck.x1, deck.y0, deck.x1 + pitch, deck.y1), _moved(box, pitch, ZERO)
    return Box(deck.x0, deck.y1, deck.x1, deck.y1 + pitch), _moved(box, ZERO, pitch)


def _moved(box: Box, dx: Length, dy: Length) -> Box:
    return Box(box.x0 + dx, box.y0 + dy, box.x1 + dx, box.y1 + dy)


def _spared(project: Project, why: Why) -> str:
    return clause(project, min(why.clashes[0].facts, key=lambda fact: fact.rank))
