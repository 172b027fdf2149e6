"""Text widths against the picture library's own layout of the same font."""

from __future__ import annotations

import pytest
from matplotlib.font_manager import FontProperties
from matplotlib.textpath import TextPath

from fitter.drawing.metrics import CAPITAL, drawable, font_file, text_width, wrap
from fitter.drawing.page import Text


@pytest.mark.parametrize("text", ["16' 10\"", "5 × 605 = 3025", "inside post", "Höfchen (½)", "AVAST Ty"])
def test_box_holds_the_glyphs(text: str) -> None:
    """The glyphs that are drawn stay in the box that is measured, and fill most of it."""
    size = 2.5 / CAPITAL
    drawn = TextPath((0, 0), text, size=size, prop=FontProperties(fname=str(font_file()))).get_extents()
    box = Text((0.0, 0.0), text).box
    assert box[0][0] - 0.01 <= drawn.x0
    assert drawn.x1 <= box[2][0] + 0.01
    assert box[0][1] - 0.01 <= drawn.y0
    assert drawn.y1 <= box[2][1] + (0.8 if "Ö" in text else 0.01)
    assert drawn.width > 0.85 * text_width(text, 2.5)


def test_capitals_have_the_height_that_is_asked() -> None:
    """A text of height 2.5 has capitals of 2.5 mm."""
    path = TextPath((0, 0), "H", size=2.5 / CAPITAL, prop=FontProperties(fname=str(font_file())))
    assert path.get_extents().height == pytest.approx(2.5, rel=0.005)


def test_unknown_characters_are_marked() -> None:
    """Neither lost nor a crash."""
    assert drawable("a\tb\u4e2d") == "a b\N{REPLACEMENT CHARACTER}"


def test_wrap_keeps_the_width() -> None:
    """Between words, within a word only where it must."""
    lines = wrap("Check every length " + "x" * 80, 2.5, 59.0)
    assert lines[0] == "Check every length"
    assert "".join(lines[1:]) == "x" * 80
    assert all(text_width(line, 2.5) <= 59.0 for line in lines)


def test_a_no_break_space_keeps_words_together() -> None:
    """The name of an edge does not stand alone in a line."""
    width = text_width("off edge AB", 2.5) - 0.1
    assert wrap("off edge AB", 2.5, width) == ("off edge", "AB")
    assert wrap("off edge\N{NO-BREAK SPACE}AB", 2.5, width) == ("off", "edge\N{NO-BREAK SPACE}AB")
