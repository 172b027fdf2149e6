"""From the facts of a clash to what is missing, in a few steps whose conclusions the solver has verified."""

from __future__ import annotations

from fitter.domain.project import Project
from fitter.domain.requirements import requirements
from fitter.domain.why import Clash
from fitter.workflow.cures.case import Case
from fitter.workflow.cures.questions import Questions
from fitter.workflow.cures.step_legs import legs_too_near
from fitter.workflow.cures.step_rows import row_too_long
from fitter.workflow.cures.step_seats import seats_too_many
from fitter.workflow.cures.step_walks import walk_too_narrow


def told_in_steps(project: Project, ids: tuple[str, ...], questions: Questions) -> Clash:
    """A clash with its steps.

    Args:
        project: that is impossible.
        ids: of requirements that cannot hold together, each of them needed for that.
        questions: asks.

    Returns:
        The clash; each conclusion was verified: with the premises alone, and nothing else asked, the solver finds a
        layout at the number told and proves that there is none one shop mark, seat or cushion beyond it.
    """
    facts = tuple(fact for fact in requirements(project) if fact.id in ids)
    case = Case(project, facts, questions)
    for ways in ((row_too_long,), (walk_too_narrow, legs_too_near), (seats_too_many,)):
        found = [clash for way in ways if (clash := way(case)) is not None]
        if found:
            # Of two lengths that are short, the one that is sooner made up for.
            return min(found, key=lambda clash: clash.gap)
    return Clash(facts)
