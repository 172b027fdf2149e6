"""What mitred parts take on a board, against every order and every way of turning them."""

from __future__ import annotations

from itertools import pairwise, permutations, product
from random import Random

import pytest

from fitter.cutting.nesting import Edges, Nesting, edges_of, walk
from fitter.domain.cuts import Piece
from fitter.domain.woodwork import SQUARE, EndCut, Slant
from rooms.lengths import Length

SIDE = Length.inches("7/2")


def ways(piece: Piece, over: Slant) -> set[tuple[int, int]]:
    """The leans of both faces in every way that a part may lie: turned end for end, flipped, or both."""
    first, last = piece.leans
    turned_flat, flipped, both = (last, first), (-first, -last), (-last, -first)
    if not piece.face_up:
        return {(first, last), turned_flat, flipped, both}
    return {(first, last), turned_flat if over is Slant.WIDTH else both}


def least_steps(pieces: list[Piece], over: Slant) -> int:
    """Steps between leans on a board, the least over all orders and ways."""
    best = 99
    for order in permutations(pieces):
        for faces in product(*(sorted(ways(piece, over)) for piece in order)):
            line = [0, *(face for pair in faces for face in pair), 0]
            best = min(best, sum(abs(a - b) for a, b in list(pairwise(line))[::2]))
    return best


def random_pieces(random: Random, count: int, over: Slant, held: float) -> list[Piece]:
    def end() -> EndCut:
        return EndCut(SIDE, over, random.random() < 0.5) if random.random() < 0.65 else SQUARE

    return [
        Piece(str(n), "s", Length.inches(40), 1, (end(), end()), random.random() < held) for n in range(count)
    ]  # fmt: skip


def told_steps(kinds: list[Edges]) -> int:
    """The same by the automaton: one mitre recedes by two units and a step of the grid is one unit."""
    return Nesting.of(kinds, 2, 0, 1).least_extra(kinds)


@pytest.mark.parametrize("seed", range(150))
def test_parts_that_may_be_flipped(seed: int) -> None:
    random = Random(f"free {seed}")
    over = random.choice(list(Slant))
    pieces = random_pieces(random, random.randint(1, 5), over, 0.0)
    assert told_steps([edges_of(piece, over, False) for piece in pieces]) == least_steps(pieces, over)


@pytest.mark.parametrize("seed", range(150))
def test_parts_with_a_face_that_must_stay_up(seed: int) -> None:
    """Mitred across the wide face, all turned in the plane; left and right are told apart."""
    random = Random(f"held {seed}")
    pieces = random_pieces(random, random.randint(1, 4), Slant.WIDTH, 0.5)
    assert told_steps([edges_of(piece, Slant.WIDTH, True) for piece in pieces]) == least_steps(pieces, Slant.WIDTH)


@pytest.mark.parametrize("seed", range(60))
def test_bevels_with_a_face_up_never_take_less_than_told(seed: int) -> None:
    """Those that gain nothing by turning are laid as blanks, which is on the safe side."""
    random = Random(f"bevel {seed}")
    pieces = random_pieces(random, random.randint(1, 4), Slant.THICKNESS, 1.0)
    edges = [edges_of(piece, Slant.THICKNESS, True) for piece in pieces]
    blanks = sum(
        sum(lean != 0 for lean in piece.leans)
        for piece, edge in zip(pieces, edges, strict=True)
        if edge == ((0, 0),)
    )  # fmt: skip
    # On the centre line a blank is longer by half a recess (one step) for each of its mitres.
    assert told_steps(edges) + blanks >= least_steps(pieces, Slant.THICKNESS)


@pytest.mark.parametrize(
    ("singles", "doubles", "steps"), [(0, 0, 0), (0, 1, 2), (0, 7, 2), (1, 0, 1), (1, 5, 1), (2, 4, 0), (3, 0, 1)]
)
def test_waste_depends_on_the_parity_of_parts_with_one_mitre(singles: int, doubles: int, steps: int) -> None:
    """Steps are those parts mod 2; without any, 2 if there is a part with two mitres."""
    kinds: list[Edges] = [((0, 1),)] * singles + [((1, 1),)] * doubles + [((0, 0),)] * 3
    assert told_steps(kinds) == steps


@pytest.mark.parametrize("seed", range(100))
def test_a_walk_takes_every_part_once_and_no_needless_step(seed: int) -> None:
    random = Random(f"walk {seed}")
    edges = [random.choice([(0, 0), (0, 1), (1, 1), (0, 2), (2, 2), (1, 2)]) for _ in range(random.randint(1, 8))]
    route = walk(edges)
    assert sorted(number for number, _ in route) == list(range(len(edges)))
    lean = {0: 0, 1: 1, 2: -1}
    faces = [0, *(lean[node] for number, back in route for node in (edges[number][::-1] if back else edges[number])), 0]
    assert sum(abs(a - b) for a, b in list(pairwise(faces))[::2]) == told_steps([(edge,) for edge in edges])
