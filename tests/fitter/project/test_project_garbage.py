"""Whatever is in a file, reading it ends in a project or in findings, never in another exception."""

from __future__ import annotations

import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from fitter.domain.findings import ProjectError, Severity
from fitter.project import read_project

_WORDS = """
units room cushions wish corners sides turns ties openings name size in mm AB BC CA A B C 0 12 -3 3' 1/0
seat left [ ] { } : , - & * ! ' " # --- | > % @
"""
WORDS = st.sampled_from([*_WORDS.split(), "\t", "\n\n", "   "])


def survives(text: str) -> None:
    """Read a text and let nothing but a ProjectError with at least one error out."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "garbage.yaml"
        file.write_text(text, encoding="utf-8", errors="surrogatepass")
        try:
            findings = read_project(str(file)).findings
            wanted = False
        except ProjectError as error:
            findings, wanted = error.findings, True
    assert any(finding.severity is Severity.ERROR for finding in findings) is wanted
    assert all(finding.message for finding in findings)


@settings(max_examples=150, derandomize=True, deadline=None, database=None)
@given(st.one_of(st.text(), st.lists(WORDS).map(" ".join), st.lists(WORDS).map("\n".join)))
def test_garbage_is_never_more_than_a_mistake(text: str) -> None:
    """Random text, and random words of the language, never escape as another exception."""
    survives(text)


VALUES = st.sampled_from(
    [
        "",
        "0",
        "-1",
        "12",
        "1e9",
        "9" * 30,
        "x",
        "[]",
        "{}",
        "[1, 2]",
        "{a: b}",
        "null",
        "true",
        '"\\0"',
        "16'",
        "0.001",
    ]
)


@settings(max_examples=250, derandomize=True, deadline=None, database=None)
@given(st.data())
def test_a_good_file_with_odd_values_is_never_more_than_a_mistake(data: st.DataObject) -> None:
    """Any value of a good file may be exchanged for an odd one."""
    lines = ODD.splitlines()
    for _ in range(data.draw(st.integers(1, 3))):
        index = data.draw(st.integers(0, len(lines) - 1))
        head, _, _ = lines[index].partition(": ")
        lines[index] = f"{head}: {data.draw(VALUES)}"
    survives("\n".join(lines))


ODD = """\
title: x
note: y
units: in
room:
  tolerance: 1/4
  sides:
    AB: 16'
    BC: 12'
    CD: 16'
    DA: 12'
  turns:
    B: left
    C: 90
  ties:
    AC: 20'
  edges:
    AB: wall
  slope:
    fall: 2 %
    toward: CD
  openings:
    - name: door
      edge: AB
      from: 12
      width: 36
      swing: in
    - name: gate
      edge: CD
      from: 12
      width: 36
  obstacles:
    - name: bowl
      centre: [8', 6']
      radius: 12
      clear: 12
    - name: bed
      corners: [[1', 1'], [2', 1'], [2', 2']]
  routes:
    - from: door
      to: gate
      width: 36
cushions:
  - name: seat
    size: [24, 24, 5]
    measured: [24, 24, 5]
    ease: 1/4
    own: 3
    price: 4
wish:
  shape: L
  seats: 3
  against: [AB]
  prefer: [seats]
frame:
  sections:
    rail: 2x8
    upright: 2x4
    cleat: 2x2
  measured:
    2x4: 1 1/2 x 3 7/16
  max_span: 72
  back_thickness: 3 1/2
  seat_height: 17
  arm_height: 24
  back_height: 36
  table_height: 17
  compression: 20 %
  lean: 2
  slat_gap:
    seat: 1
    back: 3
  reveal:
    beside: 1/2
  end_panel: posts
  rail_joint: ledger
  housing: 1/2
  uprights: edge
  back_span: 40
  foot_height: 3/4
  species: redwood
  carry:
    way: 30
    longest: 8'
shop:
  boards:
    - section: 2x8
      length: 12'
  trim: 1/2
"""
