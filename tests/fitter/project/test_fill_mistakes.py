"""What a file says of filling the room is read, complete with defaults, and each mistake told at its line."""

from __future__ import annotations

import pytest

from fitter.domain.findings import ProjectError, Severity
from fitter.domain.frame import FillLimits
from fitter.domain.wishes import FillWish
from fitter.project import read_project
from rooms.lengths import Length

TEXT = """\
units: {unit}
room: {{corners: {{A: [0, 0], B: [16 ft, 0], C: [16 ft, 12 ft], D: [0, 12 ft]}}}}
cushions:
  - {{name: seat, size: [24 in, 24 in, 5 in], ease: 1/4 in{cushion}}}
wish: {{{wish}}}
frame: {{{frame}}}
"""

CASES = [
    ({"wish": "fill: shelve"}, 5, "wish.fill", "unknown-word", "did you mean `shelf`?"),
    ({"wish": "fill: [shelf]"}, 5, "wish.fill", "", "shelf"),
    ({"frame": "fill: shelf"}, 6, "frame.fill", "wrong-kind", "mapping"),
    ({"frame": "fill: {lest: 6}"}, 6, "frame.fill.lest", "unknown-key", "did you mean `least`?"),
    ({"frame": "fill: {least: 0}"}, 6, "frame.fill.least", "zero-length", "zero"),
    ({"frame": "fill: {widest: 20 ft}"}, 6, "frame.fill.widest", "size-absurd", "8'"),
    ({"frame": "fill: {least: 9, widest: 8}"}, 6, "frame.fill.widest", "least-above-most", '8"'),
    ({"frame": "fill: {arm: 5}"}, 6, "frame.fill.arm", "fill-too-narrow", '10 1/2" at least'),
    (
        {"frame": "sections: {leg: 4x4}, fill: {least: 2, widest: 7}"},
        6, "frame.fill.widest", "fill-too-narrow", '8" at least',
    ),
    ({"cushion": ", ease_most: 1/8 in"}, 4, "cushions.0.ease_most", "ease-most", '1/8"'),
    ({"cushion": ", ease_most: 13 in"}, 4, "cushions.0.ease_most", "ease-most", "1' 1\""),
]  # fmt: skip


def text(unit: str = "in", **said: str) -> str:
    """A project file that says so."""
    return TEXT.format(unit=unit, **{"cushion": "", "wish": "", "frame": "", **said})


@pytest.mark.parametrize(("said", "line", "key", "code", "words"), CASES)
def test_mistake_is_told_at_its_line(said: dict[str, str], line: int, key: str, code: str, words: str) -> None:
    with pytest.raises(ProjectError) as caught:
        read_project("yard.yaml", text(**said))
    (found,) = (finding for finding in caught.value.findings if finding.severity is Severity.ERROR)
    assert found.place is not None
    assert (found.key, found.place.line) == (key, line)
    assert code in found.code
    assert words in f"{found.message} {found.help}"


@pytest.mark.parametrize("wish", list(FillWish))
def test_wishes_are_read(wish: FillWish) -> None:
    assert read_project("yard.yaml", text(wish=f"fill: {wish}")).wish.fill is wish


def test_defaults_are_round_in_either_system() -> None:
    assert read_project("yard.yaml", text()).frame.fills == FillLimits()
    metric = read_project("yard.yaml", text("mm")).frame.fills
    assert metric == FillLimits(Length.millimetres(150), None, Length.millimetres(300))
    assert read_project("yard.yaml", text()).wish.fill is FillWish.NONE
