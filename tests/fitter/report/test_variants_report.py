"""What is told of variants: only numbers that follow from the sticks, boards and cushions of two sizes."""

from __future__ import annotations

import io
import json
import re
from dataclasses import replace
from fractions import Fraction

import pytest
from reader_plans import bench, corner_bench, framed, planned, some, varied
from rich.console import Console

from fitter.domain.designs import What, design_of
from fitter.domain.growth import Growth, growths
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FitResult
from fitter.domain.project import Project
from fitter.domain.spending import More, Unknown
from fitter.domain.variants import Variants
from fitter.domain.woodwork import PartRole
from fitter.report.document import written
from fitter.report.variants import growing, names, rows
from fitter.report.variants.document import variants_document
from fitter.report.variants.tables import print_variants, verdict_line
from fitter.report.words import teller
from rooms.lengths import Length, Unit

TELL, CUT = teller(Unit.IN), teller(Unit.IN, feet=False)
PITCH = Length.inches("97/4")


def grown(project: Project) -> list[Growth]:
    found = varied(project)
    assert found.fit.layout is not None
    return list(growths(project, found, design_of(found.fit.layout)))


def printed(project: Project, found: Variants, width: int = 80) -> str:
    console = Console(file=io.StringIO(), width=width, markup=False, emoji=False, highlight=False)
    print_variants(console, project, found)
    assert isinstance(console.file, io.StringIO)
    return console.file.getvalue()


def test_steps_are_the_differences_of_files_written_by_hand() -> None:
    (growth,) = grown(bench(2))
    assert (growth.pitch, growth.missing) == (PITCH, ())
    assert [(step.low, step.high) for step in growth.steps] == [(1, 2), (2, 3), (3, 4)]
    for step in growth.steps:
        before, after = (framed(bench(count)) for count in (step.low, step.high))
        for role in PartRole:
            old, new = ([part.length for part in parts if part.role is role] for parts in (before, after))
            taken = growing.wood_of(step, role)
            assert taken.count == len(new) - len(old)
            assert taken.length == sum(new, Length(0)) - sum(old, Length(0))
        # Wood of other sections has no price.
        assert step.boards.unknown is Unknown.MORE
        assert step.boards.cents == (planned(bench(step.high)).cost or 0) - (planned(bench(step.low)).cost or 0)
        assert (step.length, step.depth, step.seats, step.seat_cushions, step.back_cushions) == (
            PITCH,
            Length(0),
            1,
            1,
            1,
        )
        assert step.cushions.exact == 4000


def test_the_sentence_says_what_all_steps_have_in_common_and_the_mean_of_the_rest() -> None:
    (growth,) = grown(bench(2))
    common, *uneven = growing.sentences(growth, TELL, CUT)
    assert common.startswith("Each module added to the main run, from 1 to 4: length +2' 0 1/4\" (one pitch), 1 seat, ")
    assert "1 seat cushion, 1 back cushion" in common
    assert "cushions cost +40.00" in common
    costs = [planned(bench(count)).cost or 0 for count in (1, 4)]
    mean = Fraction(costs[1] - costs[0], 300)
    assert f"boards cost +{float(mean):.2f} on average (" in common
    assert " for those whose price is known" in common
    posts = [step.posts for step in growth.steps]
    assert len(set(posts)) > 1
    assert any(line.startswith("Posts do not come evenly: ") for line in uneven)


def test_a_rule_for_rails_holds_at_every_step_or_is_not_told() -> None:
    (growth,) = grown(bench(2))
    told = next(line for line in growing.sentences(growth, TELL, CUT) if line.startswith("Rails laid end to end"))
    rule = re.search(r"front rails.* by one pitch \((.*?)\), less (.*?) for each rail that is added", told)
    assert rule is not None
    # A post of 3 1/2 in takes the place of as much rail.
    assert rule.groups() == ('24 1/4"', '3 1/2"')
    for step in growth.steps:
        rails = growing.wood_of(step, PartRole.FRONT_RAIL)
        assert rails.length == PITCH - Length.inches("7/2") * rails.count
    odd = replace(growth.steps[0], wood={PartRole.FRONT_RAIL: growing.Wood(0, Length.inches(5))})
    broken = replace(growth, steps=(odd, *growth.steps[1:]))
    assert not any(
        "front rails by one pitch" in line or "front rails," in line for line in growing.sentences(broken, TELL, CUT)
    )


def test_terminal_keeps_to_its_width_and_names_every_variant() -> None:
    text = printed(bench(2), varied(bench(2)))
    assert max(map(len, text.splitlines())) <= 80
    base = varied(bench(2)).fit.layout
    assert base is not None
    for variant in varied(bench(2)).every:
        assert f"{variant.number}  {names.name(variant.change, design_of(base))}" in text


def test_an_l_as_it_is_told() -> None:
    """One test for all that is told of the same variants, which take a while to build."""
    project = corner_bench(2, 1)
    found = some(project, lambda change: change.what in (What.COUNT, What.HAND))
    assert found.base is not None
    base = design_of(found.base.layout)
    main, arm = growths(project, found, base)
    assert ([(step.low, step.high) for step in main.steps], main.missing) == ([(1, 2), (2, 3), (3, 4)], ())
    # Runs that change roles are no step.
    assert ([(step.low, step.high) for step in arm.steps], arm.missing) == ([(1, 2)], (3,))
    text = printed(project, found)
    assert max(map(len, text.splitlines())) <= 80
    assert "they change roles: main run of 3 modules, arm of 2, on the left" in " ".join(text.split())
    block = text.split("short run on the left: L")[1].split("\n\n")[0]
    assert "The same sticks as published, in number and length." in block
    # What has no price is never told as nothing.
    assert rows.cost(found.base, found.variants[0]) == "Cost: no price is known."
    assert {row[5] for row in rows.overview(found, base, TELL)} == {"?"}


def test_lengths_that_change_are_told_shortest_first() -> None:
    found = varied(bench(2))
    assert found.base is not None
    told = {row[0]: row for row in rows.parts(found.base, found.variants[0], CUT)}
    before, after = (
        sorted(part.length for part in framed(bench(count)) if part.role is PartRole.FRONT_RAIL) for count in (2, 1)
    )
    assert (len(before), len(after)) == (1, 1)
    assert told["front rails"][1:] == ("1", "0", f"1 of {CUT(before[0])} becomes {CUT(after[0])}")


def test_document_holds_what_the_tables_tell() -> None:
    project, found = bench(2), varied(bench(2))
    document = json.loads(written(variants_document(project, found)))
    assert (document["outcome"], document["base"]["name"]) == ("proven", "as published")
    assert [entry["name"] for entry in document["variants"]] == [
        "main 1 module (-1)",
        "main 3 modules (+1)",
        "main 4 modules (+2)",
        "cushion double",
    ]
    more = document["variants"][1]
    parts = framed(bench(3))
    assert more["cost"]["boards"] == (planned(bench(3)).cost or 0) / 100
    known = more["cost"]["total"] - document["base"]["cost"]["total"]
    assert (more["cost"]["more"], more["cost"]["more_known"]) == (None, pytest.approx(known))
    assert sorted(more["cost"]["without_price"]) == ["1x4", "2x2", "2x4", "5/4x6"]
    for entry in more["parts"]:
        own = [part for part in parts if str(part.role) == entry["role"]]
        assert (entry["count"], entry["wood"]) == (len(own), float(sum(part.length.inch for part in own)))
    assert document["growth"][0]["says"] == list(growing.sentences(grown(project)[0], TELL, CUT))
    assert more["here"]["outcome"] == "fits"


def test_verdicts_are_told_first() -> None:
    found = varied(bench(2))
    assert verdict_line(found).startswith("proven: 4 variants")
    assert verdict_line(replace(found, variants=found.variants[:1], interrupted=True)).startswith(
        "found: stopped by you"
    )
    late = FitResult(Verdict.UNKNOWN)
    slow = replace(
        found.variants[0],
        boards=replace(
            found.variants[0].boards,
            framed=replace(found.variants[0].boards.framed, fit=late, shown=None, woodwork=None),
            sections=(),
        ),
    )
    assert verdict_line(replace(found, variants=(slow,))).startswith("found, not proven: time ran out")
    assert names.unbuilt(slow) == "not known: time ran out"


def test_differences_say_what_has_no_price() -> None:
    told = [names.signed_more(More(cents, unknown)) for cents in (150, -150, 0, None) for unknown in Unknown]
    assert told == [
        *("+1.50", "+1.50 + ?", "+1.50 - ?", "?"),
        *("-1.50", "-1.50 + ?", "-1.50 - ?", "?"),
        *("0", "+ ?", "- ?", "?"),
        *("?", "+ ?", "- ?", "?"),
    ]
