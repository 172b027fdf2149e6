"""Every kept output is what the commands tell today, byte for byte."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from calling import CASES, CORNERS, EXAMPLES, FRAMED, IMPOSSIBLE, OUTPUT, call, folder, kept, pictures

NAMES = sorted(case.name for case in CASES.iterdir())
README = (EXAMPLES.parent / "README.md").read_text(encoding="utf-8")
STEMS = sorted(example.stem for example in EXAMPLES.glob("*.yaml"))


@pytest.mark.parametrize("name", NAMES)
def test_case_tells_what_is_kept(name: str, tmp_path: Path) -> None:
    """Streams and exit code of a call."""
    command, text = kept(CASES / name)
    with folder(tmp_path / "here", case=CASES / name):
        told = call(command)
    assert told.written(command) == text


@pytest.mark.parametrize("stem", STEMS)
def test_example_gives_the_output_that_is_kept(stem: str, tmp_path: Path) -> None:
    """Table and plan of an example, or what clashes in an impossible one."""
    with folder(tmp_path / "here") as here:
        told = call(f"fitter fit examples/{stem}.yaml")
        drawn = {picture.name: picture.read_bytes() for picture in pictures(here)}
    assert told.stdout == (OUTPUT / f"{stem}.txt").read_text(encoding="utf-8")
    assert drawn == {picture.name: picture.read_bytes() for picture in pictures(OUTPUT, stem)}
    assert list(drawn) == [f"{stem}-{'why' if stem in IMPOSSIBLE else 'plan'}.svg"]
    assert told.code == (1 if stem in IMPOSSIBLE else 0)


@pytest.mark.parametrize("stem", FRAMED)
def test_frame_of_an_example_is_kept(stem: str) -> None:
    """Its parts are those of a case, and their drawings are there."""
    _, text = kept(CASES / f"parts-{stem}")
    printed = (OUTPUT / f"{stem}-parts.txt").read_text(encoding="utf-8")
    assert f"--- standard output\n{printed}---" in text
    assert all((OUTPUT / f"{stem}-frame.{kind}").exists() for kind in ("pdf", "png"))


@pytest.mark.parametrize("stem", FRAMED)
def test_boards_of_an_example_are_kept(stem: str) -> None:
    """Its boards are those of a case, and their drawings are there."""
    _, text = kept(CASES / f"cuts-{stem}")
    printed = (OUTPUT / f"{stem}-boards.txt").read_text(encoding="utf-8")
    assert f"--- standard output\n{printed}---" in text
    assert all((OUTPUT / f"{stem}-boards.{kind}").exists() for kind in ("pdf", "png"))


@pytest.mark.parametrize("name", NAMES)
def test_kept_text_fits_the_terminal(name: str) -> None:
    """No table is wider than 80 columns; paths and documents may be."""
    command, text = kept(CASES / name)
    if "--json" not in command:
        body = text.partition("--- standard output\n")[2].partition("\n--- ")[0]
        assert max((len(line) for line in body.splitlines()), default=0) <= 80


@pytest.mark.parametrize("shown", sorted(path.name for path in OUTPUT.glob("*.txt")))
def test_kept_output_fits_the_terminal(shown: str) -> None:
    lines = (OUTPUT / shown).read_text(encoding="utf-8").splitlines()
    assert max(map(len, lines)) <= 80


def test_each_example_is_kept_in_every_way() -> None:
    """No example goes without its table, its document and its survey."""
    assert {f"{way}-{stem}" for way in ("json", "measure") for stem in STEMS} <= set(NAMES)


@pytest.mark.parametrize("stem", STEMS)
def test_each_example_is_settled(stem: str) -> None:
    """Proven, or proven impossible; its table and its document say the same."""
    _, text = kept(CASES / f"json-{stem}")
    answer = json.loads(text.partition("--- standard output\n")[2].rpartition("\n--- ")[0])
    expected = "impossible" if stem in IMPOSSIBLE else "proven"
    assert answer["outcome"] == expected
    assert bool(answer["layouts"]) == (expected == "proven")
    assert f"\n{expected}: " in (OUTPUT / f"{stem}.txt").read_text(encoding="utf-8")


def indented(text: str) -> str:
    """A text as the README shows it."""
    return "".join(f"    {line}\n" if line else "\n" for line in text.splitlines())


def printed(name: str) -> str:
    """What a kept case has on standard output."""
    return kept(CASES / name)[1].partition("--- standard output\n")[2].partition("\n--- ")[0]


def test_comparison_of_corners_is_that_of_its_case() -> None:
    assert (OUTPUT / CORNERS).read_text(encoding="utf-8").rstrip("\n") == printed("corners-courtyard")


@pytest.mark.parametrize(
    ("name", "after", "until"),
    [
        ("corners-courtyard", "", "\ninside post\n"),
        ("owned-shed", "cushion    used", "\ncaution"),
        ("variants-garden-wall", "", "\nmain run, modules"),
        ("sweep-courtyard", "", ""),
    ],
)
def test_readme_shows_what_comparisons_print(name: str, after: str, until: str) -> None:
    text = printed(name)
    text = text[text.index(after) :]
    assert indented(text[: text.index(until)] if until else text).strip("\n") in README


def test_readme_shows_a_near_miss() -> None:
    text = (OUTPUT / "garden-gate.txt").read_text(encoding="utf-8")
    assert indented(text[text.index("One more seat") :]).strip("\n") in README


@pytest.mark.parametrize("shown", ["courtyard.txt", "landing.txt"])
def test_readme_shows_what_the_examples_print(shown: str) -> None:
    assert indented((OUTPUT / shown).read_text(encoding="utf-8")) in README


@pytest.mark.parametrize(("name", "until"), [("measure-courtyard", "\n--- "), ("layouts-courtyard", "\nlayout 1 of 3")])
def test_readme_shows_what_other_commands_print(name: str, until: str) -> None:
    _, text = kept(CASES / name)
    assert indented(text.partition("--- standard output\n")[2].partition(until)[0]) in README


@pytest.mark.parametrize(("after", "until"), [("", "\nmark   goes"), ("\nwhat it takes\n", "\nnote: ")])
def test_readme_shows_the_parts_of_a_frame(after: str, until: str) -> None:
    text = (OUTPUT / f"{FRAMED[0]}-parts.txt").read_text(encoding="utf-8")
    start = text.index(after)
    assert indented(text[start : text.index(until, start)]).strip("\n") in README


@pytest.mark.parametrize(("after", "until"), [("", "\nnote: "), ("\nboard 1 of", "\nboard 2 of")])
def test_readme_shows_the_boards_of_a_frame(after: str, until: str) -> None:
    text = (OUTPUT / f"{FRAMED[0]}-boards.txt").read_text(encoding="utf-8")
    start = text.index(after)
    assert indented(text[start : text.index(until, start)]).strip("\n") in README


def test_readme_shows_the_file_of_its_example() -> None:
    assert indented((EXAMPLES / "courtyard.yaml").read_text(encoding="utf-8")) in README
