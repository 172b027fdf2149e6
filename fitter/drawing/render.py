"""From a page to PDF, SVG and PNG; the only module that knows the picture library."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Iterable, Sequence
from functools import partial
from pathlib import Path
from typing import Any, Literal

from matplotlib import rc_context
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.backends.backend_pdf import FigureCanvasPdf, PdfPages
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.lines import Line2D
from matplotlib.patches import Polygon
from matplotlib.text import Text as TextArtist

from fitter.drawing.metrics import CAPITAL, drawable, font_file
from fitter.drawing.page import Arc, Area, Dash, Item, Line, Page, Pen, Spot, Text

_POINTS = 72 / 25.4
_DPI = 150
_SETTINGS: dict[Any, Any] = {
    # A fixed salt gives the same element names in every run; outlines of glyphs look the same everywhere.
    "svg.hashsalt": "patio-fitter",
    "svg.fonttype": "path",
    "pdf.fonttype": 42,
    "pdf.compression": 6,
    "path.simplify": False,
    "lines.scale_dashes": False,
    "text.hinting": "none",
    "text.usetex": False,
    "savefig.bbox": None,
}


def write_pages(
    pages: Page | Sequence[Page], stem: str | os.PathLike[str], formats: Iterable[str] = ("pdf", "svg", "png")
) -> list[Path]:
    """Write pages as files: one PDF with a sheet per page, one SVG and one PNG for each page.

    Each file is written under another name first and then moved, so that no half file is left behind.

    Args:
        pages: one page or several.
        stem: path without ending; with several pages SVG and PNG files get `-1`, `-2`, ... after it.
        formats: any of `pdf`, `svg`, `png`.

    Returns:
        The files written, in the order of `formats`.

    Raises:
        ValueError: a format that is none of the three.
        OSError: a file cannot be written.
    """
    every = (pages,) if isinstance(pages, Page) else tuple(pages)
    written: list[Path] = []
    with rc_context(_SETTINGS):
        for kind in formats:
            if kind not in _WRITERS:
                message = f"`{kind}` is not a picture format; use pdf, svg or png"
                raise ValueError(message)
            groups = [every] if kind == "pdf" else [(page,) for page in every]
            for number, group in enumerate(groups, start=1):
                suffix = f"-{number}" if len(groups) > 1 else ""
                target = Path(f"{os.fspath(stem)}{suffix}.{kind}")
                _replace(target, partial(_WRITERS[kind], group))
                written.append(target)
    return written


def _replace(target: Path, write: Callable[[Path], None]) -> None:
    handle, name = tempfile.mkstemp(prefix=f".{target.stem}-", suffix=target.suffix, dir=target.parent)
    os.close(handle)
    try:
        write(Path(name))
        # mkstemp makes files that only their owner reads; a plan is as public as any other new file.
        os.chmod(name, 0o666 & ~_umask())
        os.replace(name, target)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _write_pdf(pages: Sequence[Page], path: Path) -> None:
    title = pages[0].title if pages else ""
    about = {"Title": drawable(title), "Creator": "patio-fitter", "Producer": None, "CreationDate": None}
    with PdfPages(path, metadata=about) as book:
        for page in pages:
            figure = _figure(page)
            FigureCanvasPdf(figure)
            book.savefig(figure)


def _write_svg(pages: Sequence[Page], path: Path) -> None:
    about = {"Title": drawable(pages[0].title), "Creator": "patio-fitter", "Date": None}
    canvas: Any = FigureCanvasSVG(_figure(pages[0]))
    canvas.print_svg(path, metadata=about)


def _write_png(pages: Sequence[Page], path: Path) -> None:
    figure = _figure(pages[0])
    figure.set_dpi(_DPI)
    canvas: Any = FigureCanvasAgg(figure)
    canvas.print_png(path, metadata={"Software": None, "Title": drawable(pages[0].title)})


_WRITERS: dict[str, Callable[[Sequence[Page], Path], None]] = {
    "pdf": _write_pdf,
    "svg": _write_svg,
    "png": _write_png,
}


def _figure(page: Page) -> Figure:
    """A figure of the paper's size whose axes count millimetres from the lower left corner."""
    figure = Figure(figsize=(page.width / 25.4, page.height / 25.4), facecolor="white")
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_axis_off()
    axes.set_xlim(0.0, page.width)
    axes.set_ylim(0.0, page.height)
    for order, item in enumerate(page.items):
        for artist in _artists(item):
            artist.set_zorder(order)
            axes.add_artist(artist)
    return figure


def _artists(item: Item) -> list[Line2D | Polygon | TextArtist]:
    if isinstance(item, Line | Arc):
        return [_line(item.spots, item.pen, item.dash)]
    if isinstance(item, Area):
        return [_area(item)]
    if isinstance(item, Text):
        return _text(item)
    strokes = [_line(stroke, Pen.FINE, Dash.SOLID) for stroke in item.strokes]
    ticks = [_line(tick, Pen.WIDE, Dash.SOLID) for tick in item.ticks]
    return [*strokes, *ticks, *_text(item.text)]


def _style(dash: Dash) -> Literal["-"] | tuple[float, Sequence[float]]:
    return (0.0, tuple(part * _POINTS for part in dash.value)) if dash.value else "-"


def _line(spots: Sequence[Spot], pen: Pen, dash: Dash) -> Line2D:
    return Line2D(
        [x for x, _ in spots],
        [y for _, y in spots],
        color="black",
        linewidth=pen.value * _POINTS,
        linestyle=_style(dash),
        solid_capstyle="butt",
        dash_capstyle="butt",
        solid_joinstyle="miter",
    )


def _area(area: Area) -> Polygon:
    return Polygon(
        area.ring,
        closed=True,
        fill=area.grey is not None,
        facecolor=str(area.grey) if area.grey is not None else "none",
        edgecolor="black" if area.pen else "none",
        linewidth=area.pen.value * _POINTS if area.pen else 0.0,
        linestyle=_style(area.dash),
        joinstyle="miter",
        capstyle="butt",
    )


_ANCHORS: dict[float, Literal["left", "center", "right"]] = {0.0: "left", 0.5: "center", 1.0: "right"}


def _text(text: Text) -> list[Line2D | Polygon | TextArtist]:
    ground = [Polygon(text.box, closed=True, facecolor="white", edgecolor="none")] if text.masked else []
    artist = TextArtist(
        text.at[0],
        text.at[1],
        drawable(text.text),
        fontproperties=FontProperties(fname=str(font_file()), size=text.height / CAPITAL * _POINTS),
        rotation=text.angle,
        rotation_mode="anchor",
        horizontalalignment=_ANCHORS[text.anchor],
        verticalalignment="baseline",
        color="black",
        parse_math=False,
    )
    return [*ground, artist]
