"""What is blamed: a route only where nothing else clashes, too few cushions as that, and no clash twice."""

from __future__ import annotations

from pathlib import Path

from fitter.project import read_project
from fitter.workflow.cures.explaining import Explainer

NOOK = """\
units: in
room:
  sides: {AB: 9' 6", BC: 8' 4", CD: 9' 6", DA: 8' 4"}
  turns: {A: left, B: left, C: left, D: left}
  openings:
    - {name: back door, edge: BC, from: 4' 2", width: 32", swing: in, hinge: second}
    - {name: steps, edge: CD, from: 4' 6", width: 36"}
  obstacles:
    - {name: post, at: [4' 4", 3' 6"], size: [6, 6], clear: 1"}
  routes:
    - {name: door to steps, from: back door, to: steps, width: WIDTH}
cushions:
  - {name: deep 25, size: [25, 25, 6], ease: 1/4", own: 6}
wish: {shape: L, seats: {least: 6}, corner: inside post, ends: armed, legroom: 18"}
"""
ONE = """\
units: in
room: {corners: {A: [0, 0], B: [140, 0], C: [140, 70], D: [0, 70]}}
cushions:
  - {name: c, size: [24, 24, 5], own: OWN}
wish: {seats: {least: WANTED}, shape: straight}
"""
NARROW = """\
units: in
room: {corners: {A: [0, 0], B: [50, 0], C: [50, 80], D: [0, 80]}}
cushions:
  - {name: long, size: [60, 24, 5]}
wish: {seats: {least: 1}, against: [AB], off_wall: 2, legroom: 60}
"""


def explainer(text: str, path: Path) -> Explainer:
    file = path / "yard.yaml"
    file.write_text(text, encoding="utf-8")
    return Explainer(read_project(str(file)))


def test_a_route_that_could_be_of_any_width_is_not_blamed(tmp_path: Path) -> None:
    """The leg room that is left does not depend on the route, and neither does what is told."""
    told = [explainer(NOOK.replace("WIDTH", width), tmp_path).clash() for width in ("36", "35 15/16", "30")]
    assert not any("route" in fact.id for clash in told for fact in clash.facts)
    assert {clash.missing for clash in told} == {'4" are missing'}


def test_too_few_cushions_are_not_too_little_room(tmp_path: Path) -> None:
    for own, wanted, missing in (("1", "2", "1 seat is missing"), ("3", "5", "2 seats are missing")):
        clash = explainer(ONE.replace("OWN", own).replace("WANTED", wanted), tmp_path).clash()
        assert [fact.id for fact in clash.facts] == ["stock:c", "least"]
        assert clash.missing == missing


def test_what_was_given_up_is_in_no_further_clash(tmp_path: Path) -> None:
    """A bench of 63 in is too long for 50 in along AB, and for its leg room along the others."""
    explain = explainer(NARROW, tmp_path)
    first = explain.clash()
    further = explain._more(first)
    sets = [{fact.id for fact in clash.facts} for clash in (first, *further)]
    assert len(sets) > 1
    assert not any(a <= b for n, a in enumerate(sets) for m, b in enumerate(sets) if n != m)
    easiest = min(first.facts, key=lambda fact: fact.rank).id
    assert all(easiest not in ids for ids in sets[1:])
