"""The last resort: all patterns at once, as flow from one end of the boards to the other (Valério de Carvalho, 1999).

A node is a place on a board with the state of its mitres, an arc is a part laid there, wide parts first. Of the arcs
only those are kept that a cutting with exactly the asked boards can use: such a cutting wastes no more worth than the
boards can hold beyond what the parts are worth, for every dual answer known.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitter.cutting.columns import Worth
from fitter.cutting.job import Job
from fitter.cutting.knapsack import NEVER, powers
from fitter.cutting.master import Column
from fitter.cutting.mip import INFINITY, Ended, Programme

Node = tuple[int, int]
"""State and place."""

_Table = NDArray[np.int64]


@dataclass(frozen=True)
class Arc:
    """A part of a kind (or, with kind -1, the rest of a board of a sort) from one node on."""

    tail: Node
    head: Node
    kind: int
    sort: int = -1


def arcs(job: Job, boards: Sequence[int], worths: Sequence[Worth]) -> list[Arc]:
    """The arcs that a cutting from exactly these boards can use.

    Args:
        job: what is cut.
        boards: of each sort.
        worths: dual answers, at least one; the more, the fewer arcs.
    """
    kept: set[Arc] | None = None
    ordered: list[Arc] = []
    for worth in worths:
        ordered = [arc for arc in _useful(job, boards, worth) if kept is None or arc in kept]
        kept = set(ordered)
    return ordered


def _useful(job: Job, boards: Sequence[int], worth: Worth) -> Iterator[Arc]:
    slack = sum(count * room for count, room in zip(boards, worth.rooms, strict=True)) - worth.needs(job.demand)
    ahead, behind = _ahead(job, worth), _behind(job, boards, worth)
    for kind, entry in enumerate(job.kinds):
        for old, new in job.nesting.moves(entry.edges, 1):
            before, after = ahead[kind + 1][old], behind[kind][new]
            if entry.width >= len(before):
                continue
            through = before[: -entry.width] + after[entry.width :]
            for place in np.flatnonzero(through >= -slack - worth.kinds[kind]):
                yield Arc((old, int(place)), (new, int(place) + entry.width), kind)
    last = ahead[-1]
    for sort, room in enumerate(worth.rooms):
        if not boards[sort]:
            continue
        for state, extra in enumerate(job.nesting.extra):
            fits = last[state][: max(0, job.sorts[sort].room - extra + 1)]
            for place in np.flatnonzero(fits >= room - slack):
                yield Arc((state, int(place)), _END, -1, sort)


_START: Node = (0, 0)
_END: Node = (-1, -1)


def _ahead(job: Job, worth: Worth) -> list[_Table]:
    """For each number of kinds, the greatest worth that ends at each node with those alone."""
    longest = max(sort.room for sort in job.sorts)
    table = np.full((len(job.nesting.states), longest + 1), NEVER, dtype=np.int64)
    table[_START] = 0
    tables = [table]
    for kind, entry in enumerate(job.kinds):
        for copies in powers(min(entry.count, longest // entry.width)):
            width, value = copies * entry.width, copies * worth.kinds[kind]
            before, table = table, table.copy()
            for old, new in job.nesting.moves(entry.edges, copies):
                np.maximum(table[new, width:], before[old, : longest + 1 - width] + value, out=table[new, width:])
        tables.append(table)
    return tables


def _behind(job: Job, boards: Sequence[int], worth: Worth) -> list[_Table]:
    """For each number of kinds, the greatest worth from each node to the end of a board with the others alone."""
    longest = max(sort.room for sort in job.sorts)
    table = np.full((len(job.nesting.states), longest + 1), NEVER, dtype=np.int64)
    for sort, entry in enumerate(job.sorts):
        for state, extra in enumerate(job.nesting.extra):
            if boards[sort] and entry.room >= extra:
                row = table[state, : entry.room - extra + 1]
                np.maximum(row, -worth.rooms[sort], out=row)
    tables = [table]
    for kind in range(len(job.kinds) - 1, -1, -1):
        part = job.kinds[kind]
        for copies in powers(min(part.count, longest // part.width)):
            width, value = copies * part.width, copies * worth.kinds[kind]
            before, table = table, table.copy()
            for old, new in job.nesting.moves(part.edges, copies):
                row = table[old, : longest + 1 - width]
                np.maximum(row, before[new, width:] + value, out=row)
        tables.append(table)
    return tables[::-1]


def flow(
    job: Job, boards: Sequence[int], found: Sequence[Arc], nodes: int, seconds: float | None
) -> tuple[Ended, list[Column]]:
    """Whether these arcs carry a cutting, and a pattern for each of its boards."""
    places = dict.fromkeys(node for arc in found for node in (arc.tail, arc.head))
    places.pop(_END, None)
    places.pop(_START, None)
    row = {node: number for number, node in enumerate(places)}
    kinds, sorts = len(row), len(row) + len(job.kinds)
    rows = [(0.0, 0.0)] * len(row)
    rows += [(float(count), float(count)) for count in job.demand]
    rows += [(0.0, float(count)) for count in boards]
    programme = Programme(rows)
    for arc in found:
        entries = [(row[node], sign) for node, sign in ((arc.tail, -1.0), (arc.head, 1.0)) if node in row]
        entries.append((kinds + arc.kind, 1.0) if arc.kind >= 0 else (sorts + arc.sort, 1.0))
        programme.add(0.0, job.demand[arc.kind] if arc.kind >= 0 else INFINITY, entries)
    ended, amounts, _ = programme.solve(nodes, seconds)
    return ended, _paths(job, found, amounts) if amounts else []


def _paths(job: Job, found: Sequence[Arc], amounts: Sequence[int]) -> list[Column]:
    """A flow as patterns."""
    left: dict[Node, list[tuple[Arc, int]]] = {}
    for arc, amount in zip(found, amounts, strict=True):
        left.setdefault(arc.tail, []).extend([(arc, amount)] if amount else [])
    columns: list[Column] = []
    while left.get(_START):
        node, counts, sort = _START, [0] * len(job.kinds), -1
        while node != _END:
            arc, amount = left[node].pop()
            if amount > 1:
                left[node].append((arc, amount - 1))
            if arc.kind >= 0:
                counts[arc.kind] += 1
            node, sort = arc.head, arc.sort
        if any(counts):
            columns.append((sort, tuple(counts)))
    return columns
