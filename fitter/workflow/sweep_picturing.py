"""A sweep to files: its steps as PDF, SVG and PNG."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from fitter.domain.layout import Verdict
from fitter.domain.sweeps import Look, Shown, Stretch, Sweep
from fitter.drawing import write_pages
from fitter.drawing.sweep_page import Band, Chart, Level, Piece, State, sweep_page
from fitter.report.sweep_words import HEADS, amount_teller, effort, value_words
from fitter.report.words import teller
from rooms.lengths import Unit

_STATES = {
    Verdict.PROVEN: State.PROVEN,
    Verdict.FOUND: State.FOUND,
    Verdict.IMPOSSIBLE: State.NONE,
    Verdict.UNKNOWN: State.UNKNOWN,
    None: State.WRONG,
}


def write_sweep(found: Sweep, unit: Unit, file: str, folder: Path, *, sheet: str | None = None) -> list[Path]:
    """Draw a sweep and write it under the name of the project file.

    Args:
        found: the sweep; that of `courtyard.yaml` gives `courtyard-sweep.pdf`, `.svg` and `.png`.
        unit: of the file.
        file: the project file.
        folder: made if it is not there.
        sheet: a paper that must be used; None to choose.

    Returns:
        The files written.

    Raises:
        ValueError: too much is shown for the sheet.
        OSError: a file cannot be written.
    """
    page = sweep_page(sweep_chart(found, unit, file), imperial=unit.imperial, sheet=sheet)
    folder.mkdir(parents=True, exist_ok=True)
    return write_pages(page, folder / f"{Path(file).stem}-sweep")


def sweep_chart(found: Sweep, unit: Unit, file: str) -> Chart:
    """What the page of a sweep shows; a verdict alone needs no band, since grey tells it."""
    ends = [amount for stretch in found.stretches for amount in (stretch.first, stretch.last)]
    tell = amount_teller(unit, [*ends, found.step])
    pieces, so_far = [], 0
    for stretch in found.stretches:
        last = so_far + stretch.count - 1
        pieces.append(Piece(so_far, last, tell(stretch.first), _STATES.get(stretch.look.verdict, State.UNKNOWN)))
        so_far = last + 1
    project = found.usable
    first, last_value = tell(found.stretches[0].first), tell(found.stretches[-1].last)
    says = [f"{found.name} from {first} to {last_value} in steps of {tell(found.step)}", effort(found)]
    if project is not None and project.note:
        says.append(project.note)
    bands = [_band(found, one, unit) for one in found.shown if one is not Shown.VERDICT]
    if not bands:
        states = tuple(piece.state.value if piece.state is not State.NONE else None for piece in pieces)
        bands = [Band("answer", words=states)]
    title = project.title if project is not None else Path(file).stem
    return Chart(title, file, tuple(says), found.name, tuple(pieces), last_value, tuple(bands))


def _band(found: Sweep, one: Shown, unit: Unit) -> Band:
    if one is Shown.LAYOUT:
        return Band(HEADS[one], words=tuple(_word(found, one, stretch.look, unit) for stretch in found.stretches))
    return Band(HEADS[one], tuple(_level(found, one, stretch, unit) for stretch in found.stretches))


def _word(found: Sweep, one: Shown, look: Look, unit: Unit) -> str | None:
    if not look.values:
        return None
    value = look.values[found.shown.index(one)]
    return value_words(one, value, unit.mark, unit, teller(unit), seats=Shown.SEATS not in found.shown)


def _level(found: Sweep, one: Shown, stretch: Stretch, unit: Unit) -> Level | None:
    heights = [_height(found, one, look, unit) for look in (stretch.look, stretch.until)]
    texts = [_word(found, one, look, unit) for look in (stretch.look, stretch.until)]
    if heights[0] is None or heights[1] is None or texts[0] is None or texts[1] is None:
        return None
    return Level(heights[0], heights[1], texts[0], texts[1])


def _height(found: Sweep, one: Shown, look: Look, unit: Unit) -> float | None:
    value = look.values[found.shown.index(one)] if look.values else None
    if not isinstance(value, int):
        return None
    return float(Fraction(value, unit.one.units**2)) if one is Shown.AREA else float(value)
