"""Layouts that differ from those already told: in shape, counts, corner, cushions, turn, or place by over a foot."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, floor, radians

import z3

from fitter.model.arrangement import ARMS, Choice
from fitter.model.question import Proposal, Question
from rooms.lengths import Length
from rooms.room import Point

FOOT = Length.inches(12)
SAME_TURN = 1  # degrees


class Differences:
    """Keeps later answers apart from earlier ones.

    Args:
        questions: one for each frame; all of them learn what differs.
    """

    def __init__(self, questions: Sequence[Question]) -> None:
        self.questions = questions

    def demand(self, told: Proposal) -> None:
        """Ask for layouts that differ from one, from now on."""
        frame, choice = self.questions[told.frame].encoding.frame, told.choice
        units = frame.mark // frame.scale
        x, y = frame.pose.to_room(Length(int(choice.x) * units), Length(int(choice.y) * units))
        spot = Point(Length(floor(x + 1 / 2)), Length(floor(y + 1 / 2)))
        for question in self.questions:
            other = question.encoding.frame.pose
            if other.cos * frame.pose.cos + other.sin * frame.pose.sin > cos(radians(SAME_TURN)):
                question.lemmas.keep_off(choice, spot, FOOT, self._same(question, choice))

    def _same(self, question: Question, choice: Choice) -> list[z3.BoolRef]:
        """That a layout is the same as one, but for its ends and its place."""
        e = question.encoding
        terms = e.frame_of(choice)
        if choice.corner is not None:
            terms.append(e.corner[choice.corner])
        return terms + [e.cushion[arm][n] for arm in ARMS if (n := choice.cushion(arm)) is not None]
