"""A straight row of seats is longer than what is free for it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fitter.domain.cushions import Cushion, Option, options
from fitter.domain.layout import Layout
from fitter.domain.project import Project
from fitter.domain.requirements import Rank, Requirement
from fitter.domain.why import Clash, Step
from fitter.domain.wishes import EndKind, Shape
from fitter.workflow.cures.case import Case, greatest, with_all
from fitter.workflow.cures.wishes import counted
from rooms.lengths import ZERO, Length

_CARRIED = frozenset(("span", "carry"))
"""Facts about where posts may stand, which a row that stands for all its cushions cannot meet as they do."""
_OTHER = ("route:", "stock:", "buy")
"""What facts begin with that are not about how long a row is: its cushions may be too few, not too wide."""
_END_KEYS = {
    EndKind.ARMED: ("frame.arm_thickness", "frame.sections.arm"),
    EndKind.OPEN: ("frame.open_end_thickness", "frame.sections.leg"),
}


def row_too_long(case: Case) -> Clash | None:
    """Compare what the wanted cushions take side by side with the longest row that the room holds.

    Args:
        case: where a straight run is asked for, and cushions lie equally deep.

    Returns:
        The clash with its steps; None where it is about something else.
    """
    project, wish = case.project, case.project.wish
    least, depths = case.fact("least"), {option.deck(project.mark) for option in options(project.cushions)}
    odd = _CARRIED.intersection(case.ids) or any(name.startswith(_OTHER) for name in case.ids)
    if least is None or wish.shape is not Shape.STRAIGHT or len(depths) != 1 or odd:
        return None
    kind = min(options(project.cushions), key=lambda option: option.pitch(project.mark).units / option.cushion.seats)
    number = -(-wish.least // kind.cushion.seats)
    needed = kind.pitch(project.mark) * number
    bench = Cushion("row", project.mark, next(iter(depths)), kind.cushion.thickness, may_notch=False)
    found: dict[int, Layout] = {}

    def row(marks: int) -> Project:
        one = replace(bench, width=project.mark * marks)
        return replace(project, cushions=(one,), wish=replace(wish, least=1, most=None))

    def fits(marks: int) -> bool:
        layout = case.layout(row(marks))
        if layout is not None:
            found[marks] = layout
        return layout is not None

    # What is needed is asked too: it is the cushions that do not fit, and a row might.
    longest = greatest(needed // project.mark + 1, fits, tuple(_between_edges(project)))
    free = project.mark * longest
    if not longest or free >= needed:
        return None
    marks = with_all(longest, lambda k: case.whole(row(k), _CARRIED) is not None)
    rest = f"; with all else that is asked, {case.say(project.mark * marks)}" if marks < longest else ""
    *before, last = _from_edge(case, found[longest], free) or _plainly(case, free)
    reach = replace(last, concludes=f"{last.concludes}{rest}")
    steps = (*before, reach, _wanted(case, least, kind, number))
    short = needed - project.mark * marks
    missing = f"{case.say(short)} {'is' if short <= project.mark else 'are'} missing"
    return Clash(case.facts, steps, missing, short // project.mark)


def _ends(project: Project) -> dict[EndKind, Length]:
    frame = project.frame
    return {
        EndKind.ARMED: frame.arm_thickness.ceil_to(project.mark),
        EndKind.OPEN: frame.open_end_thickness.ceil_to(project.mark),
    }


def _between_edges(project: Project) -> Iterator[int]:
    """How long a row may be that reaches along a whole edge, in marks, the longest first."""
    ends, wish = _ends(project), project.wish
    both = sum(
        (ends[kind] if kind else min(ends.values()) for kind in (wish.left_end, wish.right_end)), start=ZERO
    )  # fmt: skip
    taken = both + project.room.tolerance * 2
    yield from sorted({max(0, (edge.length - taken) // project.mark) for edge in project.room.edges}, reverse=True)


def _from_edge(case: Case, layout: Layout, free: Length) -> tuple[Step, ...]:
    """The longest row where it reaches along a whole edge, less tolerance and ends; nothing where it does not."""
    project, edge = case.project, layout.pose.edge
    fact = None if edge is None else case.fact(f"edge:{edge}")
    if edge is None or fact is None or len(layout.ends) != 2:
        return ()
    length, tolerance = project.room.edge(edge).length, project.room.tolerance
    ends = [end.box.x1 - end.box.x0 for end in layout.ends]
    if not ZERO <= length - tolerance * 2 - sum(ends, start=ZERO) - free < project.mark:
        return ()
    bare = replace(project, room=replace(project.room, tolerance=ZERO))
    longest = (length - sum(ends, start=ZERO)).floor_to(project.mark)

    def fits(row: Length) -> bool:
        one = replace(project.cushions[0], width=row, measured=None, ease=ZERO, ease_most=None, may_turn=False)
        one = replace(one, depth=options(project.cushions)[0].deck(project.mark), seats=1, own=None)
        return case.layout(replace(bare, cushions=(one,), wish=replace(project.wish, least=1, most=None))) is not None

    if not fits(longest) or fits(longest + project.mark):
        return ()
    along = f"a straight bench is at most as long as edge {edge}: {case.say(length)}"
    left = f"{case.say(free)} are left for the cushions of the row"
    return (Step(case.others("least"), along), Step((*_tape(case), *_taken(case, layout)), left))


def _tape(case: Case) -> Iterator[Requirement]:
    tolerance = case.project.room.tolerance
    if tolerance > ZERO:
        says = f"{case.say(tolerance)} at each side stays free for what the tape may be off"
        yield Requirement("tolerance", "room.tolerance", says, Rank.TAPE)


def _taken(case: Case, layout: Layout) -> Iterator[Requirement]:
    """What the two ends of a bench take."""
    kinds = {end.kind: end.box.x1 - end.box.x0 for end in layout.ends}
    for kind, size in kinds.items():
        keys = _END_KEYS[kind]
        key = next((key for key in keys if key in case.project.places), keys[0])
        which = "each end" if len(kinds) == 1 else f"the {kind} end"
        yield Requirement(f"{kind} end", key, f"{which} of the bench takes {case.say(size)}", Rank.SETTING)


def _plainly(case: Case, free: Length) -> tuple[Step, ...]:
    room = f"a straight row of cushions can be {case.say(free)} long at most, ends not counted"
    return (Step(case.others("least"), room),)


def _wanted(case: Case, least: Requirement, kind: Option, number: int) -> Step:
    """What the cushions take that are wanted."""
    project, mark, cushion = case.project, case.project.mark, kind.cushion
    each = "each cushion" if len(project.cushions) == 1 else f"each cushion `{cushion.name}`"
    pitch = kind.pitch(mark)
    eased = f" with its ease of {case.say(cushion.ease)}" if cushion.ease > ZERO else ""
    n = project.cushions.index(cushion)
    key = next((k for k in (f"cushions.{n}.measured", f"cushions.{n}.size") if k in project.places), f"cushions.{n}")
    size = Requirement(f"cushion:{cushion.name}", key, f"{each} takes {case.say(pitch)}{eased}", Rank.CUSHION)
    seats = project.wish.least
    wanted = replace(least, says=f"{counted(seats, 'seat')} {'is' if seats == 1 else 'are'} wanted")
    takes = f"{counted(number, 'cushion')} side by side take{'s' if number == 1 else ''} {case.say(pitch * number)}"
    return Step((size, wanted), takes)
