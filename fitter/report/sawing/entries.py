"""Saw cuts and stop-block settings as entries of a JSON document; lengths in the unit of the file."""

from __future__ import annotations

from collections.abc import Sequence

from fitter.domain.cuts import PlannedBoard
from fitter.domain.saw_list import Sawing, Stretch, Stroke, stops
from fitter.report.entries import Document, number
from rooms.lengths import Length, Unit


def saw_entry(sawn: Sawing, unit: Unit) -> Document:
    """The saw cuts of a board in their order; `at` counts from the board's first end, `running` from the stretch's."""
    starts = {stroke: stretch.start for stretch in sawn.stretches for stroke in stretch.strokes}
    return {
        "saw": [_stroke(stroke, starts.get(stroke), unit) for stroke in sawn.strokes],
        "lengths": [_stretch(stretch, unit) for stretch in sawn.stretches] if sawn.first else [],
    }


def _stroke(stroke: Stroke, start: Length | None, unit: Unit) -> Document:
    running = stroke.line if start is None else stroke.line - start
    return {
        "cut": stroke.number,
        "frees": str(stroke.frees),
        "mark": stroke.mark,
        "lean": stroke.lean,
        "step": number(stroke.step, unit),
        "running": number(running, unit),
        "at": number(stroke.line, unit),
        "held": number(stroke.held, unit),
    }


def _stretch(stretch: Stretch, unit: Unit) -> Document:
    return {"from": number(stretch.start, unit), "to": number(stretch.end, unit), "rest": stretch.rest}


def stop_entries(boards: Sequence[PlannedBoard], unit: Unit) -> list[Document]:
    """Settings of a stop block, in turn."""
    return [
        {
            "section": stop.section,
            "length": number(stop.length, unit),
            "leans": list(stop.leans),
            "pieces": stop.count,
            "marks": list(stop.marks),
            "boards": list(stop.boards),
        }
        for stop in stops(boards)
    ]
