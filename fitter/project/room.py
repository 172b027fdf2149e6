"""The room of a project: outline, edges, openings, obstacles and routes, checked together."""

from __future__ import annotations

from fractions import Fraction

from fitter.domain.findings import Severity
from fitter.project.defaults import defaults
from fitter.project.edges import EdgeNames, build_edges, read_drops, read_kinds, read_railings
from fitter.project.forms import RoomForm, SlopeForm
from fitter.project.ledger import Ledger
from fitter.project.obstacles import read_obstacles
from fitter.project.openings import raw_names, read_openings, read_routes
from fitter.project.outline import Tape, Walk, edge_name, read_walk, sound_outline
from fitter.project.tree import Data
from rooms.lengths import Length
from rooms.room import Room, Slope
from rooms.survey import Readings, Survey, SurveyError, SurveyProblem, adjust, describe, details
from rooms.survey.readings import Angle, Turn

LARGEST_TOLERANCE = Length.inches(6)
"""Common practice: a tape that is worse tells nothing about a room."""
BENT_SOURCE = "the root of the sum of what each reading may be off, squared: propagation of errors (common practice)"


def read_room_section(ledger: Ledger, data: Data) -> tuple[Room | None, Survey | None, EdgeNames]:
    """Read `room`.

    Args:
        ledger: takes the mistakes.
        data: what the file has there.

    Returns:
        The room (None if its outline has mistakes); the adjusted survey where the outline was taped; and
        the names of the edges, as far as they are known.
    """
    if data is None:
        help = "add `room:` with `corners`, or with `sides` and `turns` or `ties`"
        ledger.absent("missing-key", "the file has no `room`", "room", help)
        return None, None, EdgeNames(())
    form = ledger.form(RoomForm, data, "room")
    if form is None:
        return None, None, EdgeNames(())
    before = ledger.errors
    tolerance = _tolerance(ledger, form)
    sound = ledger.errors == before
    outline = read_walk(ledger, form)
    survey = None
    if isinstance(outline, Tape):
        # Where the tolerance is absurd, so is what the readings are worth by it.
        survey = _adjusted(ledger, outline, tolerance) if outline.sides and sound else None
        points = tuple(point for _, point in survey.points) if survey is not None else ()
        outline = Walk("room.sides", outline.corners, points)
    if outline is None:
        outline = Walk("room")
    names = EdgeNames(outline.names)
    return _assembled(ledger, form, outline, names, tolerance), survey, names


def _tolerance(ledger: Ledger, form: RoomForm) -> Length:
    tolerance = form.tolerance if form.tolerance is not None else defaults(ledger.unit).tolerance
    if ledger.unit_known and tolerance > LARGEST_TOLERANCE:
        message = f"a tolerance of {ledger.say(tolerance)}, and {ledger.say(LARGEST_TOLERANCE)} is the most"
        help = f"write how far one tape reading may be off; {ledger.ask_unit}"
        ledger.error("size-absurd", message, "room.tolerance", help)
    return tolerance


def _assembled(ledger: Ledger, form: RoomForm, walk: Walk, names: EdgeNames, tolerance: Length) -> Room | None:
    kinds = read_kinds(ledger, form.edges, names)
    drops = read_drops(ledger, form.drops, names, kinds)
    railings = read_railings(ledger, form.railings, names, kinds)
    edges = build_edges(walk, kinds, drops, railings) if walk.points else ()
    corners = tuple(zip(walk.names, walk.points, strict=True)) if walk.points else ()
    room = Room(corners, edges, tolerance=tolerance)
    openings = read_openings(ledger, form.openings, names, edges, raw_names(form.holes) or (), tolerance)
    obstacles = read_obstacles(ledger, form.obstacles, form.holes, room.outline, tolerance)
    routes = read_routes(ledger, form.routes, raw_names(form.openings))
    slope = _slope(ledger, form.slope, names)
    return Room(corners, edges, openings, obstacles, routes, tolerance, slope) if edges else None


def _slope(ledger: Ledger, data: Data, names: EdgeNames) -> Slope | None:
    """How the floor falls; None where it is level."""
    form = ledger.form(SlopeForm, data, "room.slope") if data is not None else None
    if form is None:
        return None
    edge = names.find(ledger, form.toward, "room.slope.toward")
    return Slope(form.fall, edge[0]) if edge is not None and form.fall else None


def _adjusted(ledger: Ledger, tape: Tape, tolerance: Length) -> Survey | None:
    """The survey of a taped outline; None, with what is wrong recorded, if it makes none."""
    turns = tuple((corner, _angle(turn)) for corner, turn in tape.turns)
    try:
        survey = adjust(Readings(tape.corners, tape.sides, turns, tape.ties, tolerance))
    except SurveyError as error:
        for problem in error.problems:
            _record(ledger, tape, problem)
        return None
    walk = Walk("room.sides", tape.corners, tuple(point for _, point in survey.points))
    if not sound_outline(ledger, walk):
        return None
    _remark_bent(ledger, survey)
    return survey


def _remark_bent(ledger: Ledger, survey: Survey) -> None:
    """Whether turns are bent to close the walk, farther than the tape explains, and no diagonal bears that out."""
    if not survey.loose or survey.misclosure is None or survey.explained is None:
        return
    mark = ledger.unit.mark
    missed, explained, most = survey.misclosure.round_to(mark), survey.explained.ceil_to(mark), survey.most_bent
    if missed <= explained:
        return
    closing = f"the sides miss closing by {ledger.say(missed)}, 1 in {survey.ratio}"
    message = f"{closing}, and the tape explains {ledger.say(explained)}"
    if most is not None and isinstance(most.residual, float):
        message += f"; the room is bent to fit, corner {most.name} by {abs(most.residual):.1f}°"
    rest = len(survey.loose) - 1
    more = f" ({rest} more fix{'es' * (rest == 1)} every corner)" if rest else ""
    if survey.suspicion is not None and survey.suspicion.line is not None:
        # What tells the readings apart that may be wrong is worth more than what fixes most.
        help = f"tape a diagonal such as {survey.suspicion.line}; `fitter measure` tells which readings may be wrong"
    else:
        help = f"tape a diagonal such as {survey.loose[0]}{more}; `fitter measure` tells how far each may be trusted"
    ledger.remark("misses-closing", message, "room.sides", help, BENT_SOURCE, severity=Severity.CAUTION)


def _angle(turn: str | Fraction) -> Angle:
    return Turn(turn) if isinstance(turn, str) else turn


def _record(ledger: Ledger, tape: Tape, problem: SurveyProblem) -> None:
    """A problem of the survey as a mistake at the line of its chief reading."""
    message, help = describe(problem, ledger.unit)
    keys = _reading_keys(ledger, tape)
    key = next((keys[name] for name in problem.readings if name in keys), "room.sides")
    ledger.error(problem.code, message, key, help, details=details(problem, ledger.unit))


def _reading_keys(ledger: Ledger, tape: Tape) -> dict[str, str]:
    """The key path of each reading, under the names that the survey uses."""
    keys: dict[str, str] = {}
    for section, pairs in (("sides", tape.sides), ("ties", tape.ties)):
        for first, second, _ in pairs:
            spelled = (f"{first}{second}", f"{second}{first}", f"{first}-{second}", f"{second}-{first}")
            written = next((s for s in spelled if f"room.{section}.{s}" in ledger.tree.keys), edge_name(first, second))
            keys.update(dict.fromkeys(spelled, f"room.{section}.{written}"))
    return {**{corner: f"room.turns.{corner}" for corner, _ in tape.turns}, **keys}
