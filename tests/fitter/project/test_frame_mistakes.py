"""Every mistake in what a file says of its frame, or of a sloping floor, gets one clear finding at its line."""

from __future__ import annotations

import pytest

from fitter.domain.findings import Finding, ProjectError, Severity
from fitter.project import read_project

TEXT = """\
units: in
room: {corners: {A: [0, 0], B: [16', 0], C: [16', 12'], D: [0, 12']}%s}
cushions:
  - {name: seat, size: [24, 24, 5], back: [24, 18, 6]}
  - {name: pad, size: [24, 24, 3]}
frame:
%s
"""


def mistakes(*said: str, room: str = "") -> tuple[Finding, ...]:
    """The errors that reading gives."""
    with pytest.raises(ProjectError) as caught:
        read_project("yard.yaml", TEXT % (room, "\n".join(f"  {line}" for line in said)))
    return tuple(f for f in caught.value.findings if f.severity is Severity.ERROR)


CASES = [
    ("section of a part unknown", ["sections: {upright: 2x5}"], "sections.upright", "not-a-section", "did you mean"),
    ("part unknown", ["sections: {uprigth: 2x4}"], "sections.uprigth", "unknown-key", "did you mean `upright`?"),
    ("part too thin", ["sections: {back_slat: 1/4 in x 3 in}"], "sections.back_slat", "section-too-thin", '1/2"'),
    ("cleat taller than its rail", ["sections: {cleat: 2x8}"], "sections.cleat", "cleat-too-tall", '8 1/4"'),
    ("slat too thick for the rail", ["sections: {rail: 2x3, seat_slat: 2x4}"], "sections.seat_slat", "cleat-too-tall",
     "wider rail"),
    ("slat of 2 ft", ["sections: {seat_slat: 1 in x 24 1/2 in}"], "sections.seat_slat", "size-absurd", "2' 0\""),
    ("slat as wide as its bay", ["back_span: 3"], "back_span", "slat-too-wide", '3 1/2"'),
    ("back rails fill the panel", ["sections: {back_rail: 2x12}"], "sections.back_rail", "back-rails-too-wide",
     "1' 6 5/8\""),
    ("arm fills the end", ["sections: {arm: 2x12}", "arm_height: 20"], "sections.arm", "arm-too-wide", "1' 7 1/4\""),
    ("measured of no section", ["measured: {2x7: 1 1/2 x 7}"], "measured.2x7", "not-a-section", "did you mean `2x"),
    ("measured as nothing", ["measured: {2x4: thick}"], "measured.2x4", "not-a-section", "`thick`"),
    ("measured a list", ["measured: [2x4]"], "measured", "wrong-kind", "mapping"),
    ("measured twice", ["measured: {2x4: 1 1/2 x 3 1/2, 2 x 4: 1 1/2 x 3}"], "measured.2 x 4", "named-twice", "2 x 4"),
    ("seat under the rail's height", ["seat_height: 7"], "seat_height", "seat-too-low", "seat_height: 1' 1\""),
    ("seat too low by a mark", ["seat_height: 12 15/16"], "seat_height", "seat-too-low", "1' 1\""),
    ("seat absurd", ["seat_height: 17 ft"], "seat_height", "size-absurd", "unit"),
    ("seat of nothing", ["seat_height: 0"], "seat_height", "zero-length", "zero"),
    ("back lower than its cushion", ["back_height: 34"], "back_height", "back-too-low", "back_height: 2' 11\""),
    ("arm not above the cushion", ["arm_height: 17"], "arm_height", "arm-too-low", "more than 1' 5\""),
    ("table on the deck", ["table_height: 13"], "table_height", "table-too-low", "table_height: 1' 1 3/4\""),
    ("cushion squeezed away", ["compression: 60 %"], "compression", "share-out-of-range", "50 %"),
    ("per cent forgotten", ["compression: 20"], "compression", "share-out-of-range", "did you mean `20 %`?"),
    ("no share", ["compression: soft"], "compression", "not-a-share", "`soft`"),
    ("share of zero parts", ["compression: 1/0"], "compression", "not-a-share", "`1/0`"),
    ("lean too far", ["lean: 20"], "lean", "lean-out-of-range", "0 (upright) to 15"),
    ("lean forward", ["lean: -5"], "lean", "lean-out-of-range", "`-5`"),
    ("lean unclear", ["lean: some"], "lean", "not-an-angle", "degrees"),
    ("slat gap that entraps", ["slat_gap: 5"], "slat_gap", "gap-entraps", "B.2.5"),
    ("seat gap that entraps", ["slat_gap: {seat: 3 9/16}"], "slat_gap.seat", "gap-entraps", '3 1/2" to 9"'),
    ("gap wider still", ["slat_gap: {back: 10}"], "slat_gap.back", "gap-entraps", 'at most 3 1/2"'),
    ("gap of nothing", ["slat_gap: 0"], "slat_gap", "zero-length", "zero"),
    ("gap a list", ["slat_gap: [1, 2]"], "slat_gap", "wrong-kind", "list"),
    ("gap key", ["slat_gap: {sead: 1}"], "slat_gap.sead", "unknown-key", "`seat`"),
    ("reveal one length", ["reveal: 1 in"], "reveal", "wrong-kind", "`below` and `beside`"),
    ("reveal lower than the feet", ["reveal: {below: 1/2}"], "reveal.below", "reveal-too-low", 'below: 3/4"'),
    ("reveal past the posts", ["reveal: {beside: 2 1/4}"], "reveal.beside", "reveal-too-deep", 'at most 2"'),
    ("seat said twice", ["seat_height: 17", "reveal: {below: 4}"], "seat_height", "seat-said-twice", "leave out"),
    ("end panel unknown", ["end_panel: mitered"], "end_panel", "unknown-word", "did you mean `mitred`?"),
    ("joint unknown", ["rail_joint: glue"], "rail_joint", "unknown-word", "`housing`"),
    ("housing through the post", ["rail_joint: housing", "housing: 1 3/4"], "housing", "housing-too-deep", "third"),
    ("ledger without room", ["rail_joint: ledger", "seat_height: 14"], "seat_height", "ledger-no-room", '1 1/2"'),
    ("uprights unknown", ["uprights: standing"], "uprights", "unknown-word", "`flat` or `edge`"),
    ("flat uprights that lean", ["lean: 5", "uprights: {corner: flat}"], "uprights.corner", "upright-flat-leaning",
     "`edge`"),
    ("uprights too narrow to lean", ["lean: 10", "sections: {upright: 2x4}"], "sections.upright", "upright-too-narrow",
     '5" deep'),
    ("back thinner than its parts", ["back_thickness: 2"], "back_thickness", "back-too-thin", 'back_thickness: 2 1/4"'),
    ("back thinner than its lean", ["lean: 10", "back_thickness: 4"], "back_thickness", "back-too-thin",
     'back_thickness: 5 3/4"'),
    ("arm thicker than its end", ["arm_thickness: 3", "sections: {arm: 4x4}"], "arm_thickness", "end-too-thin",
     '3 1/2"'),
    ("end thinner than its rail", ["open_end_thickness: 1"], "open_end_thickness", "end-too-thin",
     "the rail in that end"),
    ("flat uprights thinner than back rails", ["sections: {upright: 1x4}"], "sections.upright", "upright-too-thin",
     "let it stand on `edge`"),
    ("arm half as thick as its rail", ["sections: {rail: 4x6, arm: 2x6}"], "sections.arm", "end-too-thin", '1 3/4"'),
    ("leg thicker than its end", ["open_end_thickness: 2", "sections: {leg: 4x4}"], "open_end_thickness",
     "end-too-thin", '3 1/2"'),
    ("fixing unknown", ["slat_fixing: bolts"], "slat_fixing", "unknown-word", "`nails`"),
    ("housings in a thin post", ["rail_joint: housing", "sections: {post: 2 1/2 x 2 1/2}"], "rail_joint",
     "post-too-thin", "`rail_joint: ledger`"),
    ("no foot", ["foot_height: 0"], "foot_height", "zero-length", "zero"),
    ("foot higher than stock is thick", ["foot_height: 6"], "foot_height", "size-absurd", "3 1/2"),
    ("foot of a yard", ["foot_height: 36"], "foot_height", "size-absurd", "unit"),
    ("slope word", ["slope: levle"], "slope", "unknown-word", "did you mean `level`?"),
    ("species misspelt", ["species: western redceder"], "species", "unknown-word", "did you mean `western redcedar`?"),
    ("species unknown", ["species: bamboo"], "species", "unknown-word", "`Douglas-fir`"),
    ("carry half said", ["carry: {longest: 8'}"], "carry", "missing-key", "`way`"),
    ("way of a cat", ["carry: {way: 8, longest: 8'}"], "carry.way", "size-absurd", "1' 0\""),
    ("piece of an inch", ["carry: {way: 30, longest: 1}"], "carry.longest", "size-absurd", "2' 0\""),
    ("piece shorter than a seat", ["carry: {way: 30, longest: 24}"], "carry.longest", "carry-too-short", "2' 0\""),
    ("cushions that tip", ["overhang: 9"], "overhang", "overhang-too-far", "9\""),
    ("overhang of a yard", ["overhang: 36"], "overhang", "size-absurd", "unit"),
    ("overhang in pieces", ["overhang: 1", "carry: {way: 30, longest: 8'}"], "overhang", "overhang-in-pieces",
     "leave out"),
    ("piece endless", ["carry: {way: 30, longest: 96 ft}"], "carry.longest", "size-absurd", "60' 0\""),
]  # fmt: skip


@pytest.mark.parametrize(("said", "key", "code", "part"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_one_mistake(said: list[str], key: str, code: str, part: str) -> None:
    """One finding, with its code, at its key, naming what was found or what would be right."""
    (found,) = mistakes(*said)
    assert (found.code, found.key) == (code, f"frame.{key}")
    assert part in f"{found.message}; {found.help}"
    assert found.help
    lines = [n for n, line in enumerate(said, start=7) if key.split(".")[0] in line.partition(":")[0]]
    assert found.place is not None
    assert found.place.line in lines


@pytest.mark.parametrize(
    ("slope", "key", "code", "part"),
    [
        ("{fall: 1/4, toward: AB}", "fall", "not-a-fall", "per ft"),
        ("{fall: 1/4 per cat, toward: AB}", "fall", "not-a-length", "cat"),
        ("{fall: 2 in per ft, toward: AB}", "fall", "fall-out-of-range", "1:8"),
        ("{fall: 1:0, toward: AB}", "fall", "not-a-fall", "`1:0`"),
        ("{fall: 1 per 0 ft, toward: AB}", "fall", "not-a-fall", "0 ft"),
        ("{fall: 2 %, toward: AC}", "toward", "unknown-name", "`AB`"),
        ("{fall: 2 %}", "", "missing-key", "`toward`"),
        ("2 %", "", "wrong-kind", "`fall` and `toward`"),
    ],
)
def test_one_mistake_of_the_slope(slope: str, key: str, code: str, part: str) -> None:
    (found,) = mistakes("lean: 0", room=f", slope: {slope}")
    assert (found.code, found.key) == (code, f"room.slope.{key}".rstrip("."))
    assert part in f"{found.message}; {found.help}"


def test_several_at_once_in_file_order() -> None:
    """Single values first of all; what does not go together waits for sound ones."""
    found = mistakes("lean: 30", "slat_gap: 4", "species: bamboo", "arm_height: 3")
    assert [finding.code for finding in found] == ["lean-out-of-range", "gap-entraps", "unknown-word"]
    found = mistakes("arm_height: 16", "back_height: 20", "sections: {cleat: 2x8}", "back_thickness: 1")
    assert [finding.code for finding in found] == ["arm-too-low", "back-too-low", "cleat-too-tall", "back-too-thin"]


def test_a_slat_wider_than_the_cushions_is_told() -> None:
    narrow = TEXT.replace("[24, 24, 3]", "[9, 24, 3]") % ("", "  sections: {seat_slat: 2x10}")
    with pytest.raises(ProjectError) as caught:
        read_project("yard.yaml", narrow)
    wrong = [finding.code for finding in caught.value.findings if finding.severity is Severity.ERROR]
    assert wrong == ["slat-too-wide"]


def test_a_back_without_cushions_rises_above_the_seat() -> None:
    bare = TEXT.replace(", back: [24, 18, 6]", "")
    with pytest.raises(ProjectError) as caught:
        read_project("yard.yaml", bare % ("", "  back_height: 17"))
    assert [finding.code for finding in caught.value.findings] == ["back-too-low"]
    assert read_project("yard.yaml", bare % ("", "  back_height: 25")).findings == ()


def test_what_would_be_right_is_right() -> None:
    """The sizes that the remedies name are taken; the next smaller mark is not."""
    for line, less in (
        ("seat_height: 13", "seat_height: 12 15/16"),
        ("back_height: 35", "back_height: 34 15/16"),
        ("arm_height: 17 1/16", "arm_height: 17"),
        ("back_thickness: 2 1/4", "back_thickness: 2 3/16"),
        ("slat_gap: 3 1/2", "slat_gap: 3 9/16"),
        ("reveal: {beside: 2}", "reveal: {beside: 2 1/16}"),
        ("reveal: {below: 3/4}", "reveal: {below: 11/16}"),
    ):
        assert read_project("yard.yaml", TEXT % ("", f"  {line}")).title == "yard"
        assert len(mistakes(less)) == 1


@pytest.mark.parametrize(("lean", "height", "part"), [("12", "35", "`upright: 2x8`"), ("15", "80", "no usual section")])
def test_uprights_that_are_deep_enough_are_named(lean: str, height: str, part: str) -> None:
    """20 in at 12 degrees ask for 5 11/16 in, more than a 2x6 has."""
    (found,) = mistakes(f"lean: {lean}", f"back_height: {height}", "sections: {upright: 2x6}")
    assert found.code == "upright-too-narrow"
    assert part in found.help
