"""`fitter measure`."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from fitter.cli.drawing import drawn
from fitter.cli.refusing import refuse
from fitter.cli.running import PROVEN, WRONG
from fitter.domain.findings import Finding
from fitter.project import ProjectError, RoomReading, read_room
from fitter.report.document import written
from rooms.survey.wording import listed


@dataclass(frozen=True)
class Call:
    """What was asked on the command line.

    Args:
        file: as the user wrote it.
        as_json: a document instead of tables.
        denominator: finest fraction of an inch, for residuals.
        compass: whether the compass rule is laid beside the least squares.
        folder: where the drawing of the survey goes; None for no drawing.
        sheet: a paper that must be used; None to choose.
    """

    file: str
    as_json: bool = False
    denominator: int = 64
    compass: bool = False
    folder: Path | None = None
    sheet: str | None = None


def measure_file(call: Call) -> int:
    """Read the room of a file, tell what its readings come to, and draw them if that is asked.

    Args:
        call: what was asked.

    Returns:
        The exit code.
    """
    try:
        reading = read_room(call.file)
        _check(call, reading)
    except ProjectError as error:
        return refuse(error, as_json=call.as_json)
    if call.as_json:
        # A document needs none of the terminal's libraries.
        from fitter.report.survey_document import survey_document

        print(written(survey_document(reading)))
    else:
        from fitter.report.survey import print_survey
        from fitter.report.terminal import result

        print_survey(result(), reading, call.denominator, compass=call.compass)
    return PROVEN if call.folder is None or _drawn(call, reading) else WRONG


def _check(call: Call, reading: RoomReading) -> None:
    """Refuse what these readings cannot give.

    Raises:
        ProjectError: the compass rule or the drawing is asked, and the readings for it are not there.
    """
    wants = [name for name, asked in (("--compass", call.compass), ("--plan", call.folder is not None)) if asked]
    if reading.survey is None and wants:
        message = f"{listed(wants)} asked, but the room is given by the coordinates of its corners"
        help = "give what the tape says instead: `sides` with `turns` or `ties`"
        raise ProjectError(reading.file, (_finding(reading, "no-readings", message, "room.corners", help),))
    if call.compass and reading.survey is not None and reading.survey.unwalked:
        lacking = reading.survey.unwalked
        corners = [name for name, _ in reading.survey.points]
        sides = [name for name in lacking if name not in corners]
        turns = [name for name in lacking if name in corners]
        parts = [f"side {listed(sides)}"] if sides else []
        parts += [f"the turn at {listed(turns)}"] if turns else []
        message = f"the compass rule needs every side and every turn, and {listed(parts)} was not read"
        help = "add what is missing, or leave out `--compass`: least squares do without"
        key = "room.turns" if turns else "room.sides"
        raise ProjectError(reading.file, (_finding(reading, "no-traverse", message, key, help),))


def _finding(reading: RoomReading, code: str, message: str, key: str, help: str) -> Finding:
    place = reading.places.get(key) or reading.places.get("room.sides")
    return Finding(code, message, key, place, help)


def _drawn(call: Call, reading: RoomReading) -> bool:
    """Write the drawing and name its files; False, told on standard error, if the sheet is too small."""
    # Loads the picture library, which nobody should wait for who only wants the tables.
    from fitter.workflow.surveying import write_survey

    folder = call.folder
    assert folder is not None
    return drawn(lambda: write_survey(reading, folder, sheet=call.sheet))
