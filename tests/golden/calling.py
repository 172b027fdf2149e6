"""Calls the command line within this process, as a user would from a folder of his own."""

from __future__ import annotations

import io
import os
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path
from unittest.mock import patch

import pytest

from fitter.cli import main

ROOT = Path(__file__).parents[2]
CASES = Path(__file__).parent / "cases"
EXAMPLES = ROOT / "examples"
OUTPUT = EXAMPLES / "output"
TOLD = "told.txt"
IMPOSSIBLE = ("attic-cushions", "landing", "side-yard-mm")
"""Examples in which nothing fits."""
PICTURED = (
    ("fitter corners examples/courtyard.yaml --out .", ("courtyard-corners.png", "courtyard-corners.pdf")),
    ("fitter fit examples/bay-seat.yaml --near no", ("bay-seat-plan.png",)),
    ("fitter fit examples/landing.yaml", ("landing-why.png",)),
)
"""Commands whose pictures are kept beside the plans."""
CORNERS = "courtyard-corners.txt"
"""The whole comparison of corners that the README shows the beginning of."""
FRAMED = ("garden-wall",)
"""Examples whose parts, boards and drawings of both are kept beside their plans."""


@dataclass(frozen=True)
class Told:
    """What a call told: both streams and the exit code."""

    stdout: str
    stderr: str
    code: int

    def written(self, command: str) -> str:
        """The whole as it is kept."""
        parts = [f"$ {command}", f"exit {self.code}"]
        for name, text in (("standard output", self.stdout), ("standard error", self.stderr)):
            parts += [f"--- {name}", text.rstrip("\n")] if text else [f"--- nothing on {name}"]
        return "\n".join(parts) + "\n"


@contextmanager
def folder(at: Path, *, case: Path | None = None) -> Iterator[Path]:
    """A working folder with the examples and the files of a case in it."""
    (at / "examples").mkdir(parents=True)
    for example in sorted(EXAMPLES.glob("*.yaml")):
        shutil.copy(example, at / "examples")
    for file in sorted(case.iterdir()) if case else []:
        if file.name != TOLD:
            shutil.copy(file, at)
    before = Path.cwd()
    os.chdir(at)
    try:
        yield at
    finally:
        os.chdir(before)


def call(command: str) -> Told:
    """What a command tells; its words hold no blanks."""
    out, err = io.StringIO(), io.StringIO()
    plain = {**os.environ, "COLUMNS": "80", "TERMINAL_WIDTH": "80", "NO_COLOR": "1"}
    plain.pop("FORCE_COLOR", None)
    streams = (redirect_stdout(out), redirect_stderr(err))
    around = (patch.object(sys, "argv", command.split()), patch.dict(os.environ, plain, clear=True))
    with streams[0], streams[1], around[0], around[1], pytest.raises(SystemExit) as stop:
        main()
    return Told(out.getvalue(), err.getvalue(), int(stop.value.code or 0))


def kept(case: Path) -> tuple[str, str]:
    """The command of a case, and the whole of what is kept of it."""
    text = (case / TOLD).read_text(encoding="utf-8")
    return text.partition("\n")[0].removeprefix("$ "), text


def pictures(at: Path, stem: str = "*") -> list[Path]:
    """What `fitter fit` has drawn of an example: its plan, or what clashes."""
    return sorted(path for kind in ("plan", "why") for path in at.glob(f"{stem}-{kind}.svg"))
