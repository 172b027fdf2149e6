"""Files: the paper's exact size, and the same bytes in every run."""

from __future__ import annotations

import hashlib
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from sample_layouts import samples

from fitter.drawing import plan_page, write_pages

NAME = "skew-straight-metric"

SCRIPT = f"""
import sys
sys.path.insert(0, {str(Path(__file__).parent)!r})
from sample_layouts import samples
from fitter.drawing import plan_page, write_pages
write_pages(plan_page(*samples()[{NAME!r}]), sys.argv[1])
"""


def test_bytes_are_equal_in_two_processes(tmp_path: Path) -> None:
    """Whatever the hash seed."""
    digests = []
    for seed in ("1", "2"):
        stem = tmp_path / f"plan{seed}"
        environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)}
        subprocess.run([sys.executable, "-c", SCRIPT, str(stem)], check=True, env=environment)
        digests.append(
            [hashlib.sha256(Path(f"{stem}.{kind}").read_bytes()).hexdigest() for kind in ("pdf", "svg", "png")]
        )
    assert digests[0] == digests[1]


def test_paper_size_and_files(tmp_path: Path) -> None:
    """The page is the paper, so that a print at 100 % is to scale; nothing else is left behind."""
    page = plan_page(*samples()[NAME])
    written = write_pages(page, tmp_path / "plan")
    assert written == [tmp_path / f"plan.{kind}" for kind in ("pdf", "svg", "png")]
    assert sorted(tmp_path.iterdir()) == sorted(written)
    svg = (tmp_path / "plan.svg").read_text(encoding="utf-8")
    size = re.search(r'<svg[^>]*? width="([\d.]+)pt" height="([\d.]+)pt"|height="([\d.]+)pt"', svg)
    assert size is not None
    points = [float(number) for number in re.findall(r'(?:width|height)="([\d.]+)pt"', svg)[:2]]
    assert sorted(points) == pytest.approx(sorted([page.width * 72 / 25.4, page.height * 72 / 25.4]), abs=0.01)
    box = re.search(rb"/MediaBox \[ ?0 0 ([\d.]+) ([\d.]+) ?\]", (tmp_path / "plan.pdf").read_bytes())
    assert box is not None
    assert [float(side) for side in box.groups()] == pytest.approx(
        [page.width * 72 / 25.4, page.height * 72 / 25.4], abs=0.01
    )


def test_several_pages_make_one_pdf(tmp_path: Path) -> None:
    """And pictures with numbers."""
    page = plan_page(*samples()[NAME])
    written = write_pages([page, page], tmp_path / "book", ("pdf", "png"))
    assert [path.name for path in written] == ["book.pdf", "book-1.png", "book-2.png"]
    assert len(re.findall(rb"/Type /Page\b", (tmp_path / "book.pdf").read_bytes())) == 2


def test_unknown_format_is_refused(tmp_path: Path) -> None:
    """With the names of those there are."""
    with pytest.raises(ValueError, match="`gif` is not a picture format; use pdf, svg or png"):
        write_pages(plan_page(*samples()[NAME]), tmp_path / "plan", ["gif"])
    assert list(tmp_path.iterdir()) == []


def test_picture_library_is_loaded_only_to_write() -> None:
    """So that planning a page stays quick."""
    code = "import fitter.drawing, sys; sys.exit('matplotlib' in sys.modules)"
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    assert subprocess.run([sys.executable, "-c", code], env=environment, check=False).returncode == 0
