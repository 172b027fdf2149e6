"""`fitter measure`."""

from __future__ import annotations

from fitter.cli.refusing import refuse
from fitter.cli.running import PROVEN
from fitter.project import ProjectError, read_room
from fitter.report.document import written
from fitter.report.survey import print_survey, survey_document
from fitter.report.terminal import result


def measure_file(file: str, *, as_json: bool, denominator: int) -> int:
    """Read the room of a file and tell what its readings come to.

    Args:
        file: as the user wrote it.
        as_json: a document instead of tables.
        denominator: finest fraction of an inch, for residuals.

    Returns:
        The exit code.
    """
    try:
        reading = read_room(file)
    except ProjectError as error:
        return refuse(error, as_json=as_json)
    if as_json:
        print(written(survey_document(reading)))
    else:
        print_survey(result(), reading, denominator)
    return PROVEN
