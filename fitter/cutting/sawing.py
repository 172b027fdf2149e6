"""Where each part of a pattern lies on its board."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitter.cutting.job import Job, slanted
from fitter.cutting.master import Column
from fitter.cutting.nesting import LEFT, RIGHT, SQUARE_FACE, Edges, Nesting, walk
from fitter.domain.cuts import Cut, CutOptions, Piece, PlannedBoard, kerf_along
from fitter.domain.woodwork import SQUARE, EndCut, Slant
from rooms.lengths import ZERO, Length

_LEANS = {SQUARE_FACE: 0, RIGHT: 1, LEFT: -1}


@dataclass(frozen=True)
class _Laid:
    """A part as it lies: the leans of both faces that are nested, and the ends as they are then cut."""

    piece: Piece
    leans: tuple[int, int]
    ends: tuple[EndCut, EndCut]


def sawn(job: Job, plan: Sequence[Column], options: CutOptions) -> list[PlannedBoard]:
    """The boards of a plan with their cuts: long boards first, equal patterns one after another.

    Args:
        job: what is cut.
        plan: a pattern for each board, no part too many.
        options: kerf and trim.
    """
    queues = [_queue(kind.pieces) for kind in job.kinds]
    mitre = slanted([piece for kind in job.kinds for piece in kind.pieces])
    boards = []
    for sort, pattern in sorted(plan, key=lambda column: (column[0], tuple(-count for count in column[1]))):
        kinds = [kind for kind, count in enumerate(pattern) for _ in range(count)]
        pieces = [next(queues[kind]) for kind in kinds]
        edges = _edges(job.nesting, [job.kinds[kind].edges for kind in kinds])
        laid = _laid(pieces, edges, handed=_handed(job))
        boards.append(_board(job, sort, laid, mitre[0] if mitre else 0, options))
    return boards


def _queue(pieces: Sequence[Piece]) -> Iterator[Piece]:
    for piece in sorted(pieces, key=lambda piece: (-piece.length.units, piece.mark)):
        for _ in range(piece.count):
            yield piece


def _handed(job: Job) -> bool:
    return any(LEFT in edge for kind in job.kinds for edge in kind.edges)


def _edges(nesting: Nesting, ways: Sequence[Edges]) -> list[tuple[int, int]]:
    """The way each part lies so that the board takes least (forward through the states, then back)."""
    if all(len(edges) == 1 for edges in ways):
        return [edges[0] for edges in ways]
    reached: list[dict[int, tuple[int, tuple[int, int]]]] = [{0: (0, (0, 0))}]
    for edges in ways:
        after: dict[int, tuple[int, tuple[int, int]]] = {}
        for state in reached[-1]:
            for edge in edges:
                for old, new in nesting.moves((edge,), 1):
                    if old == state:
                        after.setdefault(new, (state, edge))
        reached.append(after)
    state = min(reached[-1], key=lambda number: nesting.extra[number])
    chosen = []
    for step in reversed(reached[1:]):
        state, edge = step[state]
        chosen.append(edge)
    return chosen[::-1]


def _laid(pieces: Sequence[Piece], edges: Sequence[tuple[int, int]], *, handed: bool) -> list[_Laid]:
    """The parts in the order of the walk, turned so that neighbours share their cuts."""
    laid: list[_Laid] = []
    for number, back in walk(edges):
        nodes = edges[number][::-1] if back else edges[number]
        here = laid[-1].leans[1] if laid else 0
        if not handed:
            # The walk says whether a face is mitred; which way it leans is the last part's to say.
            first = (here or 1) if nodes[0] else 0
            fits = [ends for ends in _ways(pieces[number]) if nodes == (0, 0) or _matches(ends, first, bool(nodes[1]))]
        else:
            wanted = (_LEANS[nodes[0]], _LEANS[nodes[1]])
            fits = [ends for ends in _ways(pieces[number]) if nodes == (0, 0) or _leans(ends) == wanted]
        leans = _leans(fits[0]) if nodes != (0, 0) else (0, 0)
        laid.append(_Laid(pieces[number], leans, fits[0]))
    return laid


def _matches(ends: tuple[EndCut, EndCut], first: int, mitred: bool) -> bool:
    leans = _leans(ends)
    return leans[0] == first and bool(leans[1]) == mitred


def _leans(ends: tuple[EndCut, EndCut]) -> tuple[int, int]:
    return Cut("", ZERO, ZERO, ends).leans


def _ways(piece: Piece) -> list[tuple[EndCut, EndCut]]:
    """The ends of a part in all ways that it may lie, as it is given first."""
    first, last = piece.leans
    over = next((end.over for end in piece.ends if not end.square), Slant.WIDTH)
    turned, flipped = (last, first), (-first, -last)
    both = (-last, -first)
    if piece.face_up:
        leans = [(first, last), turned if over is Slant.WIDTH else both]
    else:
        leans = [(first, last), turned, flipped, both]
    swaps = {(first, last): piece.ends}
    for way in leans:
        if way not in swaps:
            swaps[way] = (_end(piece, over, way[0], 1), _end(piece, over, way[1], -1))
    return list(swaps.values())


def _end(piece: Piece, over: Slant, lean: int, low: int) -> EndCut:
    recess = next((end.recess for end in piece.ends if not end.square), ZERO)
    return EndCut(recess, over, lean == low) if lean else SQUARE


def _board(job: Job, sort: int, laid: Sequence[_Laid], recess: int, options: CutOptions) -> PlannedBoard:
    stock = job.sorts[sort].stock
    cuts: list[Cut] = []
    face = 0
    for part in laid:
        if not cuts:
            start = options.trim.units
        else:
            gap = abs(part.leans[0] - face) * recess
            # Long points: each mitre reaches half a recess beyond its centre line.
            back = (abs(part.leans[0]) + abs(face)) * recess
            kerf = kerf_along(options.kerf) if part.leans[0] or face else options.kerf.units
            start = cuts[-1].end.units + kerf - (back - gap) // 2
        cuts.append(Cut(part.piece.mark, Length(start), Length(start) + part.piece.length, part.ends))
        face = part.leans[1]
    last = cuts[-1].end
    assert last <= options.trim + options.usable(stock.length), "a pattern must fit its board"
    kerf = kerf_along(options.kerf) if face else options.kerf.units
    offcut = max(ZERO, stock.length - last - Length(kerf))
    hand = job.sorts[sort].on_hand
    return PlannedBoard(stock.section, stock.length, None if hand else stock.price, tuple(cuts), offcut, hand)
