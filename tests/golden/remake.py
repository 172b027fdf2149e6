"""Remakes all kept outputs from the real commands: `python tests/golden/remake.py`, then read the difference.

A new case is a folder in `cases` with its files and a `told.txt` that holds only `$ fitter ...`.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).parent), str(Path(__file__).parents[2])]

from calling import CASES, CORNERS, EXAMPLES, FRAMED, OUTPUT, PICTURED, TOLD, call, folder, kept, pictures


def remake_cases(scratch: Path) -> None:
    """Write what each case tells now."""
    for case in sorted(CASES.iterdir()):
        command, _ = kept(case)
        with folder(scratch / case.name, case=case):
            told = call(command)
        (case / TOLD).write_text(told.written(command), encoding="utf-8")


def remake_examples(scratch: Path) -> None:
    """Write table and plan of each example."""
    OUTPUT.mkdir(exist_ok=True)
    for example in sorted(EXAMPLES.glob("*.yaml")):
        with folder(scratch / example.name) as here:
            told = call(f"fitter fit examples/{example.name}")
            (OUTPUT / f"{example.stem}.txt").write_text(told.stdout, encoding="utf-8")
            for picture in pictures(here):
                shutil.copy(picture, OUTPUT)
            # The one that the README shows is kept in every format.
            if example.stem == "courtyard":
                shutil.copy(here / "courtyard-plan.png", OUTPUT)
                shutil.copy(here / "courtyard-plan.pdf", OUTPUT)
                call(f"fitter fit examples/{example.name} --layouts 3")
                shutil.copy(here / "courtyard-overview.png", OUTPUT)


def remake_pictures(scratch: Path) -> None:
    """Write the pictures that the README shows of other commands."""
    for n, (command, shown) in enumerate(PICTURED):
        with folder(scratch / str(n)) as here:
            told = call(command)
            for picture in shown:
                shutil.copy(here / picture, OUTPUT)
        if " corners " in command:
            (OUTPUT / CORNERS).write_text(told.stdout, encoding="utf-8")


def remake_frames(scratch: Path) -> None:
    """Write parts and boards, the drawings and one picture of both, of each frame that is kept."""
    for stem in FRAMED:
        with folder(scratch / stem) as here:
            told = call(f"fitter parts examples/{stem}.yaml")
            (OUTPUT / f"{stem}-parts.txt").write_text(told.stdout, encoding="utf-8")
            shutil.copy(here / f"{stem}-frame.pdf", OUTPUT)
            # The last sheet shows all parts moved apart.
            shutil.copy(sorted(here.glob(f"{stem}-frame-*.png"))[-1], OUTPUT / f"{stem}-frame.png")
            told = call(f"fitter cuts examples/{stem}.yaml")
            (OUTPUT / f"{stem}-boards.txt").write_text(told.stdout, encoding="utf-8")
            shutil.copy(here / f"{stem}-boards.pdf", OUTPUT)
            shutil.copy(here / f"{stem}-boards-1.png", OUTPUT / f"{stem}-boards.png")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as scratch:
        remake_cases(Path(scratch))
    with tempfile.TemporaryDirectory() as scratch:
        remake_examples(Path(scratch))
    with tempfile.TemporaryDirectory() as scratch:
        remake_frames(Path(scratch))
    with tempfile.TemporaryDirectory() as scratch:
        remake_pictures(Path(scratch))
