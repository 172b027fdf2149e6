"""Every mistake in a project file gets one clear finding at its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitter.domain.findings import Finding, ProjectError, Severity
from fitter.project import read_project, read_room

GOOD = """\
title: Terrace behind the shed
note: invented for a test
units: in
room:
  tolerance: 1/4"
  corners: {A: [0, 0], B: [16' 4", 0], C: [16' 4", 11'], D: [0, 11']}
  edges: {AB: wall, BC: railing, CD: open}
  openings:
    - {name: house door, edge: AB, from: 6', width: 36, swing: in, hinge: second}
    - {name: gate, edge: CD, from: 1', width: 36}
  obstacles:
    - {name: bowl, centre: [12', 6'], radius: 15", clear: 20', open_flame: true}
    - {name: box, at: [1', 1'], size: [12, 12]}
  routes:
    - {name: way out, from: house door, to: gate, width: 36}
cushions:
  - {name: seat, size: [24, 24, 5], own: 6, ease: -1/4"}
  - {name: bench, size: [48, 24, 5], seats: 2, price: 41.50}
wish:
  shape: L
  seats: {least: 3, most: 7}
  corner: inside post
  against: [AB, DA]
  prefer: [seats, fewer posts]
frame:
  sections: {post: 4x4, rail: 2x8}
  max_span: 72
shop:
  boards:
    - {section: 2x8, length: 12', price: 20.50}
  kerf: 1/8"
"""


def mistakes(text: str, tmp_path: Path) -> tuple[Finding, ...]:
    """The errors that reading a text gives, in the order told."""
    file = tmp_path / "project.yaml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(ProjectError) as caught:
        read_project(str(file))
    assert caught.value.file == str(file)
    return tuple(f for f in caught.value.findings if f.severity is Severity.ERROR)


def with_line(number: int, line: str) -> str:
    """The good file with one line exchanged; an empty one blanks it."""
    lines = GOOD.splitlines()
    lines[number - 1] = line
    return "\n".join(lines) + "\n"


OPENING = "    - {name: gate, edge: CD, from: 1', width: 36}"
CUSHION = "  - {name: seat, size: [24, 24, 5]%s}"
CASES = [
    ("misspelt top key", 1, "titel: Terrace", "unknown-key", "did you mean `title`?"),
    ("title is a list", 1, "title: [a, b]", "wrong-kind", "a list"),
    ("units missing", 3, "", "missing-units", "units: in"),
    ("units empty", 3, "units:", "missing-units", "units: in"),
    ("units wrong", 3, "units: inches", "unknown-units", "did you mean `in`?"),
    ("units unheard of", 3, "units: cubit", "unknown-units", "`cubit`"),
    ("tolerance huge", 5, "  tolerance: 7 in", "size-absurd", "unit"),
    ("tolerance negative", 5, "  tolerance: -1/4", "not-a-length", "negative"),
    ("tolerance misspelt", 5, "  tolerence: 1/4", "unknown-key", "`tolerance`"),
    ("two corners", 6, "  corners: {A: [0, 0], B: [9', 0]}", "too-few-corners", "three"),
    ("no corners", 6, "  corners: {}", "too-few-corners", "three"),
    ("corners a list", 6, "  corners: [[0, 0]]", "wrong-kind", "mapping"),
    ("coordinate junk", 6, "  corners: {A: [0, 0], B: [9', 0], C: [9', 8 apples], D: [0, 11']}",
     "not-a-length", "apples"),
    ("coordinate short", 6, "  corners: {A: [0, 0], B: [9', 0], C: [9'], D: [0, 11']}",
     "wrong-count", "two lengths"),
    ("corner twice", 6, "  corners: {A: [0, 0], B: [16' 4\", 0], C: [16' 4\", 11'], D: [0, 11'], A: [1, 1]}",
     "named-twice", "`A`"),
    ("corner badly named", 6, "  corners: {A: [0, 0], B: [9', 0], 7: [9', 9']}", "bad-corner-name", "`7`"),
    ("outline crosses", 6, "  corners: {A: [0, 0], B: [16', 11'], C: [16', 0], D: [0, 11']}",
     "outline-crosses", "AB and CD"),
    ("outline runs back", 6, "  corners: {A: [0, 0], B: [9', 0], C: [4', 0], D: [0, 11']}", "spike", "B"),
    ("corners coincide", 6, "  corners: {A: [0, 0], B: [9', 0], C: [9', 0], D: [0, 11']}", "no-length", "BC"),
    ("side too long", 6, "  corners: {A: [0, 0], B: [301', 0], C: [301', 11'], D: [0, 11']}",
     "size-absurd", "301' 0\""),
    ("room tiny", 6, "  corners: {A: [0, 0], B: [5, 0], C: [5, 4], D: [0, 4]}", "size-absurd", "unit"),
    ("beyond a kilometre", 6, "  corners: {A: [0, 0], B: [99999, 0], C: [9', 11'], D: [0, 11']}",
     "size-absurd", "kilometre"),
    ("corners and sides", 7, "  sides: {AB: 9'}", "corners-and-sides", "`sides`"),
    ("corners and ties", 7, "  ties: {AC: 9'}", "corners-and-sides", "`ties`"),
    ("neither corners nor sides", 6, "", "no-outline", "neither"),
    ("edge kind", 7, "  edges: {AB: brick}", "unknown-word", "`wall`"),
    ("edge unknown", 7, "  edges: {AC: wall}", "unknown-name", "`AC`"),
    ("edge named both ways", 7, "  edges: {AB: wall, BA: open}", "named-twice", "AB"),
    ("opening off its edge", 10, OPENING.replace("1'", "15'"), "opening-off-edge", "18' 0\""),
    ("opening too long", 10, OPENING.replace("36", "17'"), "opening-too-long", "16' 4\""),
    ("opening of no width", 10, OPENING.replace("36", "0"), "zero-length", "zero"),
    ("opening edge unknown", 10, OPENING.replace("CD", "CE"), "unknown-name", "`CD` and `DA`"),
    ("opening from negative", 10, OPENING.replace("1'", "-1'"), "not-a-length", "negative"),
    ("opening key misspelt", 10, "    - {name: gate, edge: CD, form: 1', width: 36}",
     "unknown-key", "`from`"),
    ("opening key missing", 10, "    - {name: gate, edge: CD, from: 1'}", "missing-key", "`width`"),
    ("opening swing", 10, OPENING.replace("}", ", swing: inward}"), "unknown-word", "`in`"),
    ("door too wide", 10, OPENING.replace("36", "6'").replace("}", ", swing: out}"),
     "door-too-wide", "6' 0\""),
    ("openings overlap", 10, "    - {name: gate, edge: AB, from: 8', width: 36}",
     "openings-overlap", "1' 0\""),
    ("openings overlap from the other end", 10, "    - {name: gate, edge: BA, from: 6', width: 36}",
     "openings-overlap", "`house door`"),
    ("openings empty text", 10, "    - gate", "wrong-kind", "mapping"),
    ("obstacle outside", 13, "    - {name: box, at: [20', 1'], size: [12, 12]}", "obstacle-outside", "`box`"),
    ("obstacle without place", 13, "    - {name: box}", "obstacle-shapeless", "`corners`"),
    ("obstacle half said", 13, "    - {name: box, at: [1', 1']}", "obstacle-shapeless", "`size`"),
    ("obstacle said twice", 13, "    - {name: box, at: [1', 1'], size: [9, 9], radius: 4}",
     "obstacle-twice", "`radius`"),
    ("obstacle of two corners", 13, "    - {name: box, corners: [[1', 1'], [2', 2']]}",
     "too-few-corners", "three"),
    ("obstacle crosses", 13, "    - {name: box, corners: [[1', 1'], [2', 2'], [2', 1'], [1', 2']]}",
     "obstacle-crosses", "`box`"),
    ("obstacle of no size", 13, "    - {name: box, at: [1', 1'], size: [0, 12]}", "zero-length", "zero"),
    ("obstacle spelled otherwise", 13, "    - {name: box, center: [1', 1'], radius: 4}",
     "unknown-key", "`centre`"),
    ("obstacles of one name", 13, "    - {name: bowl, at: [1', 1'], size: [12, 12]}",
     "named-twice", "line 12"),
    ("height unclear", 13, "    - {name: box, at: [1', 1'], size: [9, 9], height: flat}",
     "unknown-word", "`full`, `low` or `reach`"),
    ("flame that lies flat", 12, "    - {name: bowl, centre: [12', 6'], radius: 15, open_flame: yes, height: low}",
     "flame-low", "`bowl` burns"),
    ("hole without place", 7, "  holes: [{name: well}]", "obstacle-shapeless", "`corners`"),
    ("hole outside", 7, "  holes: [{name: well, at: [20', 1'], size: [12, 12]}]", "obstacle-outside", "`well`"),
    ("hole with a height", 7, "  holes: [{name: well, at: [9', 1'], size: [12, 12], height: low}]",
     "unknown-key", "`height`"),
    ("hole named like an obstacle", 7, "  holes: [{name: bowl, at: [9', 1'], size: [12, 12]}]",
     "named-twice", "two obstacles or holes"),
    ("holes no list", 7, "  holes: {name: well, at: [9', 1'], size: [12, 12]}", "wrong-kind", "list of holes"),
    ("opening in a hole", 10, OPENING.replace("CD", "well") + "\n  holes: [{name: well, at: [9', 1'], size: [9, 9]}]",
     "opening-in-hole", "an edge of the outline"),
    ("flag unclear", 12, "    - {name: bowl, centre: [12', 6'], radius: 15, open_flame: maybe}",
     "not-a-flag", "`maybe`"),
    ("route to nowhere", 15, "    - {name: way out, from: house door, to: gaet}",
     "unknown-name", "did you mean `gate`?"),
    ("route to itself", 15, "    - {name: way out, from: gate, to: gate}", "route-in-place", "`gate`"),
    ("route too wide", 15, "    - {from: house door, to: gate, width: 36 ft}", "size-absurd", "unit"),
    ("route width unclear", 15, "    - {from: house door, to: gate, width: 3 doors}",
     "not-a-length", "doors"),
    ("cushions no list", 17, "  seat: 5", "not-yaml", "indentation"),
    ("cushion of 24 ft", 17, CUSHION.replace("24, 24", "24', 24") % "", "size-absurd", "unit right?"),
    ("cushion of millimetres", 17, CUSHION.replace("24, 24", "24 mm, 24 mm") % "",
     "size-absurd", "unit right?"),
    ("cushion flat", 17, CUSHION.replace("5]", "0]") % "", "zero-length", "zero"),
    ("cushion size short", 17, "  - {name: seat, size: [24, 24]}", "wrong-count", "2 values"),
    ("cushion size long", 17, "  - {name: seat, size: [24, 24, 5, 5]}", "wrong-count", "4 values"),
    ("cushion size single", 17, "  - {name: seat, size: 24}", "wrong-kind", "three lengths"),
    ("cushion nameless", 17, "  - {size: [24, 24, 5]}", "missing-key", "`name`"),
    ("cushion named by a blank", 17, "  - {name: '  ', size: [24, 24, 5]}", "empty-value", "`name`"),
    ("cushions of one name", 17, CUSHION.replace("seat", "bench") % "", "named-twice", "`bench`"),
    ("ease eats cushion", 17, CUSHION % ", ease: -13", "ease-too-big", "1' 1\""),
    ("own a fraction", 17, CUSHION % ", own: 6.5", "not-a-count", "`6.5`"),
    ("own negative", 17, CUSHION % ", own: -1", "count-out-of-range", "`-1`"),
    ("price negative", 17, CUSHION % ", price: -4", "not-a-price", "`-4`"),
    ("price with a sign", 17, CUSHION % ", price: $4", "not-a-price", "currency"),
    ("price empty", 17, CUSHION % ", price: ", "empty-value", "`price`"),
    ("may_turn unclear", 17, CUSHION % ", may_turn: 1", "not-a-flag", "`true`"),
    ("four on one cushion", 17, CUSHION % ", seats: 4", "count-out-of-range", "3"),
    ("shape unknown", 20, "  shape: round", "unknown-word", "`straight`"),
    ("least above most", 21, "  seats: {least: 8, most: 7}", "least-above-most", "8"),
    ("no seats wanted", 21, "  seats: 0", "count-out-of-range", "`0`"),
    ("corner unknown", 22, "  corner: inside pots", "unknown-word", "did you mean `inside post`?"),
    ("against no edge", 23, "  against: [AB, AX]", "unknown-name", "`AX`"),
    ("against nothing", 23, "  against: []", "empty-value", "`against`"),
    ("objective unknown", 24, "  prefer: [chairs]", "unknown-word", "`chairs`"),
    ("objective twice", 24, "  prefer: [seats, seats]", "named-twice", "`seats`"),
    ("section unknown", 26, "  sections: {post: 4x4, rail: 2x9}", "not-a-section", "did you mean"),
    ("section of words", 26, "  sections: {post: 4x4, rail: thick}", "not-a-section", "`thick`"),
    ("section of three sizes", 26, "  sections: {post: 4x4, rail: 1 x 2 x 3}",
     "not-a-section", "`1 x 2 x 3`"),
    ("post thinner than a rail", 26, '  sections: {post: 1" x 1 1/4", rail: 2x8}', "post-too-thin", '1 1/4"'),
    ("post of a plank", 26, "  sections: {post: 2x6, rail: 2x8}", "post-not-square", "4x4"),
    ("section too big", 26, "  sections: {post: 4x4, rail: 38 x 140 in}", "size-absurd", "unit"),
    ("span endless", 27, "  max_span: 72 ft", "size-absurd", "unit"),
    ("board without length", 30, "    - {section: 2x8, price: 20.50}", "missing-key", "`length`"),
    ("board endless", 30, "    - {section: 2x8, length: 144 ft}", "size-absurd", "unit"),
    ("kerf unclear", 31, "  kerf: 1/0", "not-a-length", "zero"),
    ("trim absurd", 31, "  trim: 25", "size-absurd", "unit"),
    ("trim takes all", 30, "    - {section: 2x8, length: 40}\n  trim: 20", "board-trimmed-away", "1' 8\""),
    ("a tab", 5, "\ttolerance: 1/4", "not-yaml", "tab"),
    ("indentation", 5, "    tolerance: 1/4\n  edges: {}", "not-yaml", "indentation"),
    ("bracket open", 10, "    - {name: gate, edge: CD", "not-yaml", "bracket"),
    ("anchor", 1, "title: &x Terrace", "alias", "`&x`"),
    ("alias", 1, "title: *x", "alias", "`*x`"),
    ("tag", 1, "title: !!python/name:os.system x", "tag", "tag"),
    ("second document", 4, "---\nroom:", "several-documents", "one project"),
    ("deep nesting", 1, "title: " + "[" * 40 + "]" * 40, "too-deep", "levels"),
    ("key a list", 1, "? [a, b]\n: c", "odd-key", "key"),
]  # fmt: skip
ELSEWHERE = {
    "units missing": None, "units empty": 3, "neither corners nor sides": 4, "cushions of one name": 18,
    "cushions no list": 18, "indentation": 6,
}  # fmt: skip


@pytest.mark.parametrize(("name", "line", "text", "code", "part"), CASES, ids=[case[0] for case in CASES])
def test_one_mistake(name: str, line: int, text: str, code: str, part: str, tmp_path: Path) -> None:
    """One finding, with its code, at its line, naming what was found or what would be right."""
    found = mistakes(with_line(line, text), tmp_path)
    assert [finding.code for finding in found] == [code]
    place = found[0].place
    assert (place.line if place else None) == ELSEWHERE.get(name, line)
    assert part in f"{found[0].message}; {found[0].help}"


def test_the_good_file_is_good(tmp_path: Path) -> None:
    """The file that the cases above spoil has no mistake of its own."""
    file = tmp_path / "project.yaml"
    file.write_text(GOOD, encoding="utf-8")
    assert read_project(str(file)).findings == ()


TAPED = """\
units: in
room:
  sides: {AB: 16', BC: 12', CD: 16', DA: 12'}
  turns: {B: left, C: left, D: left}
  ties: {AC: 20'}
cushions: [{name: seat, size: [24, 24, 5]}]
"""
TAPE_CASES = [
    ("side twice", "CD: 16'", "CD: 16', BA: 16'", 3, "named-twice", "`BA`", False),
    ("side of one corner", "CD: 16'", "CC: 16'", 3, "bad-side-name", "`CC`", False),
    ("side out of order", "CD: 16'", "DE: 16'", 3, "sides-unchained", "side DE", False),
    ("walk not closed", "DA: 12'", "DE: 12'", 3, "sides-unchained", "E", False),
    ("two sides", "BC: 12', CD: 16', DA: 12'", "BA: 16' 2", 3, "named-twice", "`BA`", False),
    ("side of no length", "BC: 12'", "BC: 0", 3, "zero-length", "`BC`", False),
    ("side too long", "BC: 12'", "BC: 12000'", 3, "size-absurd", "`BC`", False),
    ("turn unclear", "B: left", "B: square", 4, "not-a-turn", "`square`", False),
    ("turn of a full circle", "B: left", "B: 360", 4, "not-a-turn", "`360`", False),
    ("turn at no corner", "B: left", "X: left", 4, "unknown-name", "`X`", False),
    ("tie to no corner", "AC:", "AX:", 5, "bad-tie-name", "`AX`", False),
    ("tie along a side", "AC:", "CB:", 5, "tie-is-side", "`CB`", False),
    ("tie twice", "AC: 20'", "AC: 20', CA: 20'", 5, "named-twice", "`CA`", False),
    ("turns do not come round", "C: left", "C: right", 4, "turns-not-round", "360", True),
    ("tie no triangle allows", "AC: 20'", "AC: 30'", 5, "tie-no-triangle", "longer than", True),
]  # fmt: skip


@pytest.mark.parametrize(
    ("old", "new", "line", "code", "part", "disagree"),
    [case[1:] for case in TAPE_CASES],
    ids=[case[0] for case in TAPE_CASES],
)
def test_one_tape_mistake(old: str, new: str, line: int, code: str, part: str, disagree: bool, tmp_path: Path) -> None:
    """Tape readings: one finding, and `disagree` only where sound readings contradict each other."""
    assert old in TAPED
    file = tmp_path / "taped.yaml"
    file.write_text(TAPED.replace(old, new), encoding="utf-8")
    with pytest.raises(ProjectError) as caught:
        read_project(str(file))
    (found,) = caught.value.findings
    assert (found.code, found.place.line if found.place else None) == (code, line)
    assert part in f"{found.message}; {found.help}"
    assert caught.value.disagree is disagree


def test_readings_beyond_tolerance_disagree_with_numbers(tmp_path: Path) -> None:
    """Readings that miss each other by more than the tolerance are a verdict, with the lengths in it."""
    file = tmp_path / "taped.yaml"
    text = TAPED.replace("  turns: {B: left, C: left, D: left}\n", "")
    file.write_text(text.replace("AC: 20'", "AC: 20' 3, BD: 20'"), encoding="utf-8")
    with pytest.raises(ProjectError) as caught:
        read_project(str(file))
    assert caught.value.disagree
    assert [finding.code for finding in caught.value.findings] == ["readings-disagree"]
    assert "20' 3\"" in caught.value.findings[0].message


def test_a_mistake_beside_disagreeing_readings_is_a_mistake(tmp_path: Path) -> None:
    """The verdict on the tape waits until the file is sound."""
    text = TAPED.replace("AC: 20'", "AC: 20' 3").replace("name: seat", "nmae: seat")
    file = tmp_path / "taped.yaml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(ProjectError) as caught:
        read_project(str(file))
    assert not caught.value.disagree
    assert [finding.code for finding in caught.value.findings] == ["readings-disagree", "unknown-key"]


def test_all_mistakes_at_once_in_file_order(tmp_path: Path) -> None:
    """Mistakes of shape, of names and of sizes are told together, from top to bottom."""
    lines = GOOD.splitlines()
    lines[0] = "titel: Terrace"
    lines[6] = "  edges: {AB: brick, AC: wall}"
    lines[9] = "    - {name: gate, edge: CD, from: 15', width: 36, swing: sideways}"
    lines[14] = "    - {name: way out, from: house dor, to: gate, width: none}"
    lines[16] = "  - {name: seat, size: [24', 24, 5], own: many}"
    lines[22] = "  against: [AB, DE]"
    lines[29] = "    - {section: 2x7, length: 12', price: free}"
    found = mistakes("\n".join(lines), tmp_path)
    assert [(finding.place.line if finding.place else 0, finding.code) for finding in found] == [
        (1, "unknown-key"),
        (7, "unknown-word"),
        (7, "unknown-name"),
        (10, "opening-off-edge"),
        (10, "unknown-word"),
        (15, "unknown-name"),
        (15, "not-a-length"),
        (17, "size-absurd"),
        (17, "not-a-count"),
        (23, "unknown-name"),
        (30, "not-a-section"),
        (30, "not-a-price"),
    ]


def test_no_cushion(tmp_path: Path) -> None:
    """A project without cushions cannot be fitted, but its room can be measured."""
    text = "units: in\nroom:\n  corners: {A: [0, 0], B: [9', 0], C: [9', 9']}\n"
    (found,) = mistakes(text, tmp_path)
    assert (found.code, found.key) == ("no-cushion", "cushions")
    assert mistakes(text + "cushions: []\n", tmp_path)[0].place is not None
    assert len(read_room(str(tmp_path / "project.yaml")).room.edges) == 3


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"", "file-empty"),
        (b"\n  \n", "file-empty"),
        (b"# nothing but a remark\n", "file-empty"),
        (b"- a\n- b\n", "wrong-kind"),
        (b"just a text", "wrong-kind"),
        (b"\x7fELF\x00\x01", "not-text"),
        ("units: in".encode("utf-16"), "not-utf8"),
        (b"units: in\nnote: caf\xe9\n", "not-utf8"),
        (b"a: 1\n" * 250_000, "file-huge"),
        (b"x:\n" + b"- a\n" * 11_000, "file-huge"),
        (b'title: "\\UFFFFFFFF"\n', "not-yaml"),
        (b"title: 'open\n", "not-yaml"),
        (b"title: @x\n", "not-yaml"),
        (b"title: \x07\n", "not-yaml"),
        (b"%YAML 9.1\n---\ntitle: x\n", "not-yaml"),
        (b"a: &a [x]\nb: &b [*a, *a]\nc: [*b, *b]\n", "alias"),
    ],
)
def test_files_that_are_no_project(content: bytes, code: str, tmp_path: Path) -> None:
    """Whatever is in the file, one finding says why it is of no use."""
    file = tmp_path / "thing"
    file.write_bytes(content)
    with pytest.raises(ProjectError) as caught:
        read_project(str(file))
    assert [finding.code for finding in caught.value.findings] == [code]


def test_not_utf8_names_the_line(tmp_path: Path) -> None:
    """A letter saved in another encoding is found at its line and column."""
    file = tmp_path / "latin.yaml"
    file.write_bytes(b"units: in\nnote: caf\xe9\n")
    with pytest.raises(ProjectError) as caught:
        read_project(str(file))
    place = caught.value.findings[0].place
    assert place is not None
    assert (place.line, place.column) == (2, 10)


def test_paths_that_cannot_be_read(tmp_path: Path) -> None:
    """Missing files, directories and impossible paths are findings, too."""
    for path, code in (
        (str(tmp_path / "none.yaml"), "file-missing"),
        (str(tmp_path), "file-is-directory"),
        ("a\0b", "file-unreadable"),
        (str(tmp_path / ("x" * 300)), "file-unreadable"),
    ):
        with pytest.raises(ProjectError) as caught:
            read_project(path)
        assert [finding.code for finding in caught.value.findings] == [code]


def test_a_list_of_thousands_is_refused(tmp_path: Path) -> None:
    """A file that nobody wrote by hand is refused before it costs minutes."""
    extra = "\n".join(f"  - {{name: c{i}, size: [24, 24, 5]}}" for i in range(150))
    text = GOOD.replace("cushions:\n", f"cushions:\n{extra}\n")
    assert [finding.code for finding in mistakes(text, tmp_path)] == ["too-many"]


@pytest.mark.parametrize(
    ("number", "line", "right"),
    [
        (3, "unit: in", "units"),
        (4, "roam:", "room"),
        (16, "cushoins:", "cushions"),
        (6, "  corner: {A: [0, 0], B: [16' 4\", 0], C: [16' 4\", 11'], D: [0, 11']}", "corners"),
    ],
)
def test_misspelt_key_is_one_mistake_though_something_is_missing_then(
    number: int, line: str, right: str, tmp_path: Path
) -> None:
    assert [(f.code, f.help) for f in mistakes(with_line(number, line), tmp_path)] == [
        ("unknown-key", f"did you mean `{right}`?")
    ]


def test_absurd_tolerance_is_told_alone_not_what_follows_from_it(tmp_path: Path) -> None:
    text = """units: in
room:
  tolerance: 5'
  sides: {AB: 16', BC: 11', CD: 16', DA: 11'}
  turns: {A: left, B: left, C: left, D: left}
cushions:
  - {name: seat, size: [24, 24, 5]}
"""
    assert [f.code for f in mistakes(text, tmp_path)] == ["size-absurd"]


def test_list_of_ends_is_told_how_ends_are_asked_for_apart(tmp_path: Path) -> None:
    (found,) = mistakes(with_line(21, "  ends: [open, armed]"), tmp_path)
    assert (found.code, found.key) == ("wrong-kind", "wish.ends")
    assert "{left: open, right: armed}" in found.help


def test_file_without_a_name_is_told_as_such() -> None:
    with pytest.raises(ProjectError) as caught:
        read_project("")
    assert caught.value.file == "''"
