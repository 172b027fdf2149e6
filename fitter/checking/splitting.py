"""Whether a frame is split where it has to be, so that each of its pieces can be carried in."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from fitter.checking.case import HANDS, Case
from fitter.checking.lines import Line, lines
from fitter.domain.findings import Finding
from fitter.domain.layout import Box, Face, ModuleLine, Run, Side
from fitter.domain.wishes import CornerKind
from rooms.lengths import ZERO, Length

_KEY = "frame.carry.longest"


def split_lines(case: Case) -> Iterator[Finding]:
    """Splits lie on module lines of their runs, told in order and once; there is none where nothing asks for it."""
    told = case.layout.splits
    if case.project.frame.carry is None:
        for split in told:
            yield case.fault("split", f"{_name(split)} is split, though all may be carried in one piece", _KEY)
        return
    may = {line.run.side: line.carrying for line in lines(case) if line.face is Face.BACK}
    for split in told:
        if split.run not in may or split.line not in may[split.run]:
            yield case.fault("split", f"{_name(split)} has no such line that can be split")
    sides = list(may)
    places = [(sides.index(split.run), split.line) for split in told if split.run in may]
    if any(one >= other for one, other in pairwise(places)):
        yield case.fault("split", "the splits are not told run by run and line by line, each once")


def _name(split: ModuleLine) -> str:
    return f"line {split.line} of the {split.run} run"


def corners(case: Case) -> Iterator[Finding]:
    """Of two runs that meet, the one that does not own their corner place is split off there."""
    if case.project.frame.carry is None:
        return
    for arm in case.arms:
        split = ModuleLine(arm.side, 0)
        if case.owner(arm.side) is not Side.MAIN:
            split = ModuleLine(Side.MAIN, 0 if arm.side is case.first else case.main.count)
        if split not in case.layout.splits:
            yield case.fault("split", f"{_name(split)} is not split, though the {arm.side} corner is not its own", _KEY)


def sections(case: Case) -> Iterator[Finding]:
    """No piece is longer than can be carried, from outer face to outer face."""
    carry = case.project.frame.carry
    if carry is None:
        return
    for run in case.layout.runs:
        pitch = case.pitch(run)
        places = [pitch * line for line in case.layout.split_lines(run.side)]
        low, high = _beyond(case, run)
        outer = [-low, *places, case.length(run) + high]
        for number, (low, high) in enumerate(pairwise(outer), start=1):
            if high - low > carry.longest:
                sizes = f"{case.tell(high - low)} long, {case.tell(carry.longest)} can be carried"
                yield case.fault("carry", f"piece {number} of the {run.side} run is {sizes}", _KEY)


def _beyond(case: Case, run: Run) -> tuple[Length, Length]:
    """What belongs to a run before its first module and past its last one."""
    if run.side is not Side.MAIN:
        return _corner(case, run, run.side), _end(case, run.side)
    first, last = (_corner(case, run, hand) if case.layout.run(hand) else _end(case, hand) for hand in HANDS)
    return (first, last) if case.first is Side.RIGHT else (last, first)


def _end(case: Case, hand: Side) -> Length:
    return next(case.end(end.kind) for end in case.layout.ends if end.hand is hand)


def _corner(case: Case, run: Run, hand: Side) -> Length:
    """Of a corner place that the run owns with what stands behind it; nothing of one that it is split off from."""
    if case.owner(hand) is not run.side:
        return ZERO
    place = case.reach(hand) if run.side is Side.MAIN else case.depth(case.main)
    return place + (max(case.back, case.post) if case.layout.corner is CornerKind.OUTSIDE_POST else case.back)


def doubled(line: Line) -> Iterator[Finding]:
    """On each split line two posts stand side by side, one of them in front of a corner being that of the corner."""
    case = line.case
    for number in case.layout.split_lines(line.run.side):
        found = sorted((post.box for post in line.posts() if post.line == number), key=_low)
        wanted = sorted(line.beside(number), key=_low)
        if found != wanted:
            told, right = ("; ".join(map(case.tell_box, boxes)) or "none" for boxes in (found, wanted))
            where = f"the {line.face} split {number} of the {line.run.side} run"
            yield case.fault("post", f"posts at {where}: {told}; their places are {right}")


def _low(box: Box) -> tuple[Length, Length]:
    return box.x0, box.y0
