"""The tape survey: from sides, turns and ties to an outline, with what each reading is worth."""

from rooms.survey.adjust import adjust
from rooms.survey.problems import SurveyError, SurveyProblem
from rooms.survey.readings import TURN_LIMIT, Angle, ReadingKind, Readings, Turn
from rooms.survey.result import Residual, Survey
from rooms.survey.ring import check_ring
from rooms.survey.traverse import Closure, close_traverse
from rooms.survey.wording import describe

__all__ = [
    "TURN_LIMIT",
    "Angle",
    "Closure",
    "ReadingKind",
    "Readings",
    "Residual",
    "Survey",
    "SurveyError",
    "SurveyProblem",
    "Turn",
    "adjust",
    "check_ring",
    "close_traverse",
    "describe",
]
