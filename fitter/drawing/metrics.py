"""How wide a text is, from the advance widths of the font that is drawn with (DejaVu Sans)."""

from __future__ import annotations

import re
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path

from fontTools.ttLib import TTFont

# Height of capital letters, and how far glyphs reach above and below the baseline, per em; measured on
# the glyphs H, (, quotes and g of the font's own outlines.
CAPITAL = 1493 / 2048
ASCENT = 0.78
DESCENT = 0.24
_REPLACEMENT = "\N{REPLACEMENT CHARACTER}"


@lru_cache(maxsize=1)
def font_file() -> Path:
    """The font file that is shipped with the drawing library, found without importing that library."""
    spec = find_spec("matplotlib")
    if spec is None or spec.origin is None:
        message = "matplotlib is not installed, and its font DejaVu Sans is needed for drawings"
        raise FileNotFoundError(message)
    return Path(spec.origin).parent / "mpl-data" / "fonts" / "ttf" / "DejaVuSans.ttf"


@lru_cache(maxsize=1)
def _advances() -> dict[int, float]:
    with TTFont(font_file(), lazy=True) as font:
        em = font["head"].unitsPerEm
        widths = font["hmtx"].metrics
        return {code: widths[name][0] / em for code, name in sorted(font.getBestCmap().items())}


@lru_cache(maxsize=4096)
def drawable(text: str) -> str:
    """The text with control characters as spaces and characters that the font lacks replaced by a mark."""
    advances = _advances()
    return "".join(" " if not char.isprintable() else char if ord(char) in advances else _REPLACEMENT for char in text)


@lru_cache(maxsize=4096)
def text_width(text: str, height: float) -> float:
    """Width of one line of text on the page.

    Args:
        text: what is written.
        height: of capital letters, in millimetres, as drawing standards name text sizes.

    Returns:
        The width in millimetres, without kerning (which only makes it smaller).
    """
    advances = _advances()
    return sum(advances[ord(char)] for char in drawable(text)) * height / CAPITAL


def wrap(text: str, height: float, width: float) -> tuple[str, ...]:
    """Break a text into lines no wider than `width` millimetres, between words where there is a choice.

    A no-break space is no such place.
    """
    lines: list[str] = []
    for word in re.split(r"[ \t\r\n]+", text.strip()) if text.strip() else ():
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(joined, height) <= width:
            lines[-1] = joined
        else:
            lines.extend(_pieces(word, height, width))
    return tuple(lines)


def _pieces(word: str, height: float, width: float) -> tuple[str, ...]:
    pieces = [""]
    for char in word:
        if pieces[-1] and text_width(pieces[-1] + char, height) > width:
            pieces.append("")
        pieces[-1] += char
    return tuple(pieces)
