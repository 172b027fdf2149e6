"""The tape survey: from sides, turns and ties to an outline, with what each reading is worth."""

from rooms.survey.adjust import adjust
from rooms.survey.problems import SurveyError, SurveyProblem
from rooms.survey.readings import TURN_LIMIT, WITHIN, Angle, ReadingKind, Readings, Turn
from rooms.survey.result import Ellipse, Residual, Survey, Suspect, Suspicion, Traverse
from rooms.survey.ring import check_ring
from rooms.survey.traverse import Closure, close_traverse
from rooms.survey.wording import describe, details

__all__ = [
    "TURN_LIMIT",
    "WITHIN",
    "Angle",
    "Closure",
    "Ellipse",
    "ReadingKind",
    "Readings",
    "Residual",
    "Survey",
    "SurveyError",
    "SurveyProblem",
    "Suspect",
    "Suspicion",
    "Traverse",
    "Turn",
    "adjust",
    "check_ring",
    "close_traverse",
    "describe",
    "details",
]
