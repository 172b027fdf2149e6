"""How mitred parts share their saw cuts.

Seen along the board, the face at each end of a part leans to the right, to the left, or is square. A part is an edge
between the leans of its two faces; the board's own ends are square. Neighbours whose faces lean alike share one cut,
and each step between different leans costs half of what a mitre recedes. So the parts of a board are a walk from square
back to square through all their edges (Euler), and what it takes beside the widths of the parts is known from two
things alone: which leans have an odd number of faces, and which edges hang together. Both are kept while parts are
counted, in any order, by a small automaton. Where every part may be flipped, left and right need not be told apart.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from fitter.domain.cuts import Piece
from fitter.domain.woodwork import Slant

SQUARE_FACE, RIGHT, LEFT = 0, 1, 2
"""Leans as nodes. Where parts may be flipped, RIGHT stands for both of the others."""

Edges: TypeAlias = tuple[tuple[int, int], ...]
"""The ways that a part may lie, each as the leans of its two faces."""

State: TypeAlias = tuple[tuple[bool, bool], tuple[int, int]]
"""Whether RIGHT and LEFT have an odd number of faces, and the least node that each hangs together with, -1 for none."""

START: State = ((False, False), (-1, -1))


def edges_of(piece: Piece, over: Slant | None, handed: bool) -> Edges:
    """The ways that a part may lie on a board.

    Args:
        piece: the part.
        over: the side that is crossed by the mitres that are nested; a part mitred over the other side, or over both,
            is cut from a square blank, and so is one whose face must stay up where the mitre is a bevel: turned end
            for end, its long face is still its long face.
        handed: whether left and right are told apart.
    """
    if over is None or not any(piece.leans) or any(not end.square and end.over is not over for end in piece.ends):
        return ((SQUARE_FACE, SQUARE_FACE),)
    if not handed:
        first, last = (int(lean != 0) for lean in piece.leans)
        return ((min(first, last), max(first, last)),)
    nodes = [(SQUARE_FACE, RIGHT, LEFT)[lean] for lean in piece.leans]
    low, high = min(nodes), max(nodes)
    mirrored = tuple(sorted({SQUARE_FACE: 0, RIGHT: LEFT, LEFT: RIGHT}[node] for node in nodes))
    both = tuple(sorted({(low, high), (mirrored[0], mirrored[1])}))
    if not piece.face_up:
        return both
    if over is Slant.THICKNESS:
        # Turned end for end, a bevel leans the other way: only a parallelogram gains by it.
        return both if nodes[0] == nodes[1] else ((SQUARE_FACE, SQUARE_FACE),)
    return ((low, high),)


def add(state: State, edge: tuple[int, int]) -> State:
    """The state with one part more."""
    if edge == (SQUARE_FACE, SQUARE_FACE):
        return state
    odd, parts = list(state[0]), [SQUARE_FACE, *state[1]]
    for node in edge:
        if node:
            odd[node - 1] = not odd[node - 1]
            parts[node] = node if parts[node] < 0 else parts[node]
    old, new = max(parts[edge[0]], parts[edge[1]]), min(parts[edge[0]], parts[edge[1]])
    joined = [new if part == old else part for part in parts]
    return (odd[0], odd[1]), (joined[1], joined[2])


def joints(state: State) -> int:
    """Steps between different leans that a walk needs.

    Each lean with an odd number of faces needs one step to square; a group that hangs together with neither needs a way
    there and back.
    """
    odd, parts = state
    return sum(odd) + 2 * len(_alone(state[0], parts))


def _alone(odd: tuple[bool, bool], parts: tuple[int, int]) -> list[int]:
    """Groups of leans that nothing leads to."""
    apart = sorted({part for part in parts if part > 0})
    return [part for part in apart if not any(odd[node - 1] for node in (RIGHT, LEFT) if parts[node - 1] == part)]


@dataclass(frozen=True)
class Nesting:
    """The automaton of a cutting.

    Args:
        states: all that boards can come to; the first one is an empty board.
        extra: what each state takes of a board beside the widths, in steps of the grid.
    """

    states: tuple[State, ...]
    extra: tuple[int, ...]

    @classmethod
    def of(cls, kinds: Sequence[Edges], recess: int, more: int, grid: int) -> Nesting:
        """The automaton of some kinds of parts.

        Args:
            kinds: the ways in which each may lie.
            recess: how far a mitre recedes, in units.
            more: what a saw cut at 45° takes more than a square one, in units.
            grid: one step, in units.
        """
        states = [START]
        for state in states:
            for edges in dict.fromkeys(kinds):
                states += [new for edge in edges if (new := add(state, edge)) not in states]
        return cls(tuple(states), tuple(cls._extra(state, recess, more, grid) for state in states))

    @staticmethod
    def _extra(state: State, recess: int, more: int, grid: int) -> int:
        steps = joints(state)
        # One step lies at the board's own end; at the others a square face may meet a mitre, whose saw cut is longer.
        return -(-(steps * recess + max(0, steps - 1) * more) // (2 * grid))

    def moves(self, edges: Edges, copies: int) -> tuple[tuple[int, int], ...]:
        """From which state to which some copies of a part lead, as numbers of states."""
        found: dict[tuple[int, int], None] = {}
        for number, state in enumerate(self.states):
            reached: Iterable[State] = (state,)
            for _ in range(copies):
                reached = dict.fromkeys(add(one, edge) for one in reached for edge in edges)
            found.update(dict.fromkeys((number, self.states.index(one)) for one in reached))
        return tuple(found)

    def least_extra(self, parts: Iterable[Edges]) -> int:
        """What some parts take on one board beside their widths, laid in the best way."""
        reached: Iterable[State] = (START,)
        for edges in parts:
            reached = dict.fromkeys(add(one, edge) for one in reached for edge in edges)
        return min(self.extra[self.states.index(one)] for one in reached)


def walk(edges: Sequence[tuple[int, int]]) -> list[tuple[int, bool]]:
    """The order of parts on a board that shares as many cuts as can be.

    Args:
        edges: of each part, the way that it lies.

    Returns:
        Number of each part and whether its edge is walked backward. A mitre that has no like one lies at an end of the
        board where it can, square parts last.
    """
    links = [(edge, number) for number, edge in enumerate(edges) if edge != (SQUARE_FACE, SQUARE_FACE)]
    links += [(pair, _STEP) for pair in _steps([edge for edge, _ in links])]
    route = _from_step(_circuit(links))
    plain = [(number, False) for number, edge in enumerate(edges) if edge == (SQUARE_FACE, SQUARE_FACE)]
    return [(number, back) for number, back in route if number != _STEP] + plain


_STEP = -1
"""Stands for a part where a walk steps between leans."""


def _steps(edges: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """Steps between leans that make a closed walk from square of some edges."""
    state = START
    for edge in edges:
        state = add(state, edge)
    odd, parts = state
    return [(SQUARE_FACE, node) for node in (RIGHT, LEFT) if odd[node - 1]] + [
        (SQUARE_FACE, part) for part in _alone(odd, parts) for _ in range(2)
    ]


def _from_step(route: list[tuple[int, bool]]) -> list[tuple[int, bool]]:
    """A closed walk begun with one of its steps, so that a mitre without a like one lies at the board's end."""
    at = next((at for at, (number, _) in enumerate(route) if number == _STEP), None)
    if at is None:
        return route
    if not route[at][1]:
        return route[at:] + route[:at]
    turned = route[at + 1 :] + route[: at + 1]
    return [(number, not back) for number, back in reversed(turned)]


def _circuit(links: Sequence[tuple[tuple[int, int], int]]) -> list[tuple[int, bool]]:
    """A closed walk from square over all links (Hierholzer)."""
    left = list(range(len(links)))
    path: list[tuple[int, int, bool]] = [(SQUARE_FACE, -1, False)]
    done: list[tuple[int, bool]] = []
    while path:
        here, number, back = path[-1]
        found = next((link for link in left if here in links[link][0]), None)
        if found is None:
            path.pop()
            done.append((number, back))
            continue
        left.remove(found)
        (first, last), part = links[found]
        backward = here != first
        path.append((first if backward else last, part, backward))
    # What was walked last comes first, and every link is walked the other way.
    return [(number, not back) for number, back in done[:-1]]
