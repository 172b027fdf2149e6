"""How it is told why nothing fits: premises with their places, lines of 80 columns, all that is open said."""

from __future__ import annotations

import io
from dataclasses import replace

from impossible import EXAMPLES
from report_layouts import layout
from rich.console import Console

from fitter.domain.project import Project
from fitter.domain.requirements import Requirement, requirements
from fitter.domain.why import Change, Clash, Cure, Ease, Sought, Step, Why
from fitter.project import read_project
from fitter.report.why import print_clash, print_cures
from fitter.report.why_words import headline, helpless, premises, stated, uninvolved
from fitter.report.words import teller

LANDING = replace(read_project(str(EXAMPLES / "landing.yaml")), file="landing.yaml")
YARD = replace(read_project(str(EXAMPLES / "side-yard-mm.yaml")), file="yard.yaml")
EDGES = ("edge:AB", "edge:BC", "edge:CD", "edge:DA")


def facts(project: Project, *ids: str) -> tuple[Requirement, ...]:
    return tuple(fact for fact in requirements(project) if fact.id in ids)


def cure(says: str, *changes: Change, smallest: bool = True, caution: str = "", pair: bool = False) -> Cure:
    ids = ("least", "legroom") if pair else ("least",)
    return Cure(ids, Ease.SEATS, says, changes, 1, layout(), smallest, caution, pair)


def shown(project: Project, clash: Clash | None = None, why: Why | None = None, open_end: str = "") -> str:
    out = io.StringIO()
    console, tell = Console(file=out, width=80, markup=False, highlight=False, emoji=False), teller(project.unit)
    if clash is not None:
        print_clash(console, project, clash, tell)
    if why is not None:
        print_cures(console, project, why, tell, open_end)
    assert max(map(len, out.getvalue().splitlines()), default=0) <= 80
    return out.getvalue()


def test_edges_are_one_premise_and_seats_are_only_counted() -> None:
    told = premises(LANDING, facts(LANDING, *EDGES, "least", "shape", "span"), teller(LANDING.unit))
    assert [place for _, place in told] == ["landing.yaml:7", "landing.yaml:17", "landing.yaml:16", "default"]
    assert told[0][0] == "the edges are as taped: AB 6' 2\", BC 4' 10\", CD 6' 2\" and DA 4' 10\""
    assert told[1][0] == "3 seats are wanted"


def test_the_place_is_the_flag_where_that_counts_and_a_short_name_where_the_path_is_long() -> None:
    flagged = replace(LANDING, flags={"wish.buy_at_most": "--only-owned"})
    assert stated(flagged, ["wish.buy_at_most"]) == "`--only-owned`"
    far = replace(LANDING, file="/home/somebody/plans/of/all/kinds/landing.yaml")
    assert stated(far, ["wish.shape"]) == "landing.yaml:16"
    worse = replace(LANDING, file=f"/{'a' * 70}.yaml")
    assert stated(worse, ["wish.shape", "wish.seats.least"]) == "line 16-17"


def test_the_headline_is_what_was_wanted_and_what_is_missing() -> None:
    tell = teller(LANDING.unit)
    clash = Clash(facts(LANDING, *EDGES, "least", "shape"), missing="2 inches are missing")
    assert headline(LANDING, clash, tell) == "Cannot be had: 3 seats in a straight run; 2 inches are missing."
    blocked = Clash(facts(YARD, "route:kitchen to gate"))
    assert headline(YARD, blocked, teller(YARD.unit)) == "Cannot be had: the route `kitchen to gate` 915 mm wide."


def test_each_premise_stands_beside_its_place_and_conclusions_alone() -> None:
    one = Step(facts(YARD, "obstacle:herb trough", "against"), "the way is narrow")
    two = Step(facts(YARD, "route:kitchen to gate"), "")
    clash = Clash((*one.premises, *two.premises), (one, two), "27 mm are missing")
    lines = shown(YARD, clash).splitlines()
    assert [line for line in lines if line.endswith(("yard.yaml:17", "yard.yaml:19", "yard.yaml:27", " default"))] == [
        f"{'  Since `herb trough` stands in the room':66}  yard.yaml:17",
        f"{'  and the longest run stands within 60 mm of an edge':66}  yard.yaml:27",
        f"{'  But the route `kitchen to gate` stays open 915 mm wide':66}  yard.yaml:19",
    ]
    assert "    so the way is narrow." in lines
    assert "  So 27 mm are missing. Each step is proven." in lines


def test_a_clash_without_steps_lists_its_facts() -> None:
    told = shown(LANDING, Clash(facts(LANDING, "least", "shape")))
    assert "so these cannot all hold." in told


def test_cures_are_numbered_with_old_and_new_values_and_cautions_below() -> None:
    change = Change("wish.seats.least", "3", "2")
    new = Change("wish.legroom", "1' 6\"", "1' 2\"")
    why = Why((), (cure("ask for 2", change), cure("sit closer", new, caution="mind your knees", smallest=False)))
    lines = shown(LANDING, why=why).splitlines()
    start = lines.index("  1. ask for 2")
    assert lines[start + 1] == f"{'     wish.seats.least: 3 -> 2':63}  landing.yaml:17"
    assert lines[start + 3] == "  2. sit closer (a smaller change may do too)"
    assert lines[start + 4].split("  ")[-1] == "to be added"
    assert lines[start + 5] == "     caution: mind your knees"


def test_pairs_are_told_as_pairs() -> None:
    why = Why((), (cure("do one thing, and do another", smallest=False, pair=True),))
    told = " ".join(shown(LANDING, why=why).split())
    assert "No single change that was tried makes it fit, but any one of these pairs does." in told
    assert "may do too" not in told


def test_nothing_that_helps_is_said_and_so_is_what_was_not_tried() -> None:
    assert "neither alone nor with another" in shown(LANDING, why=Why(()))
    told = shown(LANDING, why=Why((), sought=Sought.PART), open_end="Time ran out.")
    assert "Time ran out." in told
    assert "neither alone" not in told


def test_what_does_not_help_and_what_is_not_involved() -> None:
    names = ("less leg room", "edge AB farther out", "edge CD farther out")
    assert helpless(names) == ["less leg room", "edges AB and CD farther out"]
    # The door swings out, so how it swings is nothing to think of.
    assert uninvolved(LANDING, facts(LANDING, *EDGES, "swing:back door", "legroom")) == [
        "edges AB, BC, CD and DA",
        "leg room",
    ]


def test_a_length_is_not_broken_at_the_end_of_a_line() -> None:
    step = Step(facts(LANDING, "shape"), f"{'word ' * 13}so 6' 2 1/4\" are left and no more than that")
    assert "6' 2 1/4\"" in shown(LANDING, Clash(step.premises, (step,)))
