"""Layouts that are carried in pieces, apart from their places: every set of splits and posts tried, run by run.

All in shop marks, deck corner at (0, 0).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from itertools import combinations, pairwise, product

from designs import Design, Form, Rect, Worth, forms

from fitter.domain.frame import RailJoint
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind, Side

Lengths = frozenset[int]


@dataclass(frozen=True)
class Stretch:
    """A run along its own axis.

    Args:
        low: where its first piece begins; None where it is split off from a corner that it does not own.
        high: where its last piece ends; None likewise.
        front: start, stop and module lines in front.
        back: the same behind.
        half: how far a post reaches to the low side of its line.
        crossed: for each cross rail to its back line: where that ends, and the deck that it crosses.
        blocked: module lines that cannot carry a post of their own, in front and behind.
        whole: module lines at which it cannot be split.
    """

    low: int | None
    high: int | None
    front: tuple[int, int, tuple[int, ...]]
    back: tuple[int, int, tuple[int, ...]]
    half: int
    crossed: tuple[tuple[int, int], ...]
    blocked: tuple[frozenset[int], frozenset[int]] = (frozenset(), frozenset())
    whole: frozenset[int] = frozenset()


@dataclass(frozen=True)
class Saw:
    """Sizes that decide about posts and splits."""

    post: int
    rail: int
    limit: int
    longest: int


def saw(project: Project) -> Saw:
    """The sizes of a project, rounded to its mark on the safe side."""
    frame, mark = project.frame, project.mark.units
    assert frame.carry is not None
    board = project.shop.longest(frame.rail.name)
    housings = 2 * frame.carpentry.housing.units if frame.carpentry.rail_joint is RailJoint.HOUSING else 0
    limits = [frame.max_span.units, *([board.units - housings] if board is not None else [])]
    up = [-(-size.units // mark) for size in (frame.post.width, frame.rail.thickness)]
    return Saw(*up, min(limits) // mark, frame.carry.longest.units // mark)


def stretches(form: Form, ends: dict[Side, int]) -> list[Stretch]:
    """The runs of a form with ends of a thickness."""
    lines, halves, crossings = form.lines(), form._halves, list(form._crossings())
    behind = form.back if form.kind is not CornerKind.OUTSIDE_POST else max(form.back, form.post)
    owns = {side: form.owner_is_main(side, arm) for side, arm in form.arms}
    low = -(behind if owns.get(Side.RIGHT) else ends[Side.RIGHT])
    high = form.width + (behind if owns.get(Side.LEFT) else ends[Side.LEFT])
    bounds: list[tuple[int | None, int | None]] = [
        (None if owns.get(Side.RIGHT) is False else low, None if owns.get(Side.LEFT) is False else high)
    ]
    bounds += [(None if owns[side] else -behind, form.main.deck + arm.length + ends[side]) for side, arm in form.arms]
    return [
        Stretch(
            *bound, lines[2 * n], lines[2 * n + 1], halves[2 * n],
            tuple((at, deck) for line, at, deck in crossings if line == 2 * n + 1),
        )
        for n, bound in enumerate(bounds)
    ]  # fmt: skip


@cache
def options(run: Stretch, by: Saw) -> tuple[int, frozenset[Lengths]] | None:
    """The fewest posts with the fewest splits, and the sets of rail lengths that do; None if nothing does."""
    if not all(_face(run, back, (), by) for back in (False, True)):
        return None  # what cannot stand in one piece does not stand in several
    start, stop, _ = run.front
    places = [place for place in run.back[2] if place not in run.whole]
    for size in range(len(places) + 1):
        found: dict[int, set[Lengths]] = {}
        for splits in combinations(places, size):
            if _carried(run, splits, start, stop, by):
                for one, other in product(*(_face(run, back, splits, by) for back in (False, True))):
                    found.setdefault(one[0] + other[0], set()).add(one[1] | other[1])
        if found:
            return min(found), frozenset(found[min(found)])
    return None


def _carried(run: Stretch, splits: tuple[int, ...], start: int, stop: int, by: Saw) -> bool:
    """Whether each piece can be carried, and the run is split off from corners of others, where its front ends."""
    if (run.low is None and start not in splits) or (run.high is None and stop not in splits):
        return False
    faces = [*([] if run.low is None else [run.low]), *splits, *([] if run.high is None else [run.high])]
    return all(b - a <= by.longest for a, b in pairwise(faces))


def _face(run: Stretch, back: bool, splits: tuple[int, ...], by: Saw) -> list[tuple[int, Lengths]]:
    """Every choice of posts on a line that keeps its span and those of the cross rails that end there."""
    start, stop, places = run.back if back else run.front
    pairs = [(low, low + by.post) for at in splits for low in (at - by.post, at)]
    pairs = [(low, high) for low, high in pairs if start <= low and high <= stop]
    crossed = run.crossed if back else ()
    places = tuple(place for place in places if place not in run.blocked[back])
    found = []
    for taken in product((False, True), repeat=len(places)):
        alone = [place for place, yes in zip(places, taken, strict=True) if yes]
        if set(alone) & set(splits):
            continue
        posts = sorted([*pairs, *((at - run.half, at - run.half + by.post) for at in alone)])
        faces = [start, *(face for post in posts for face in post), stop]
        bays = [b - a for a, b in zip(faces[::2], faces[1::2], strict=True)]
        # Nothing lies between the two posts of a split, nor between one of them and the corner post beside it.
        between = [a for a, b in zip(faces[::2], faces[1::2], strict=True) if a == b]
        if any(at not in splits for at in between) or not all(0 <= bay <= by.limit for bay in bays):
            continue
        held = [deck - by.post - (by.post if at in (*alone, *splits) else by.rail) for at, deck in crossed]
        if all(0 < bay <= by.limit for bay in held):
            found.append((len(posts), frozenset(bay for bay in bays if bay)))
    return found


@dataclass(frozen=True)
class Bare:
    """Runs and corners with their ends, before posts are chosen.

    Args:
        form: the runs.
        runs: the same along their own axes.
        worths: seats, tall posts, whole cushions and cushions not bought, of every choice of corner cushions.
        ends: their plans.
    """

    form: Form
    runs: tuple[Stretch, ...]
    worths: tuple[tuple[int, int, int, int], ...]
    ends: tuple[Rect, ...]

    def design(self, worth: Worth, feet: tuple[Rect, ...] = ()) -> Design:
        """The layout that is worth so much."""
        form = self.form
        arm = {Side.RIGHT: form.right, Side.LEFT: form.left}.get(form.aligned or Side.MAIN)
        return Design(
            worth, (*form._stands(), *self.ends), tuple(form._clear()), feet, form.aligned, form.width,
            form.main.deck + arm.length if arm else 0, form.back,
        )  # fmt: skip

    def timber(self, runs: Iterable[Stretch], by: Saw) -> tuple[int, int] | None:
        """Posts and rail lengths saved, with the fewest of each for the fewest splits; None if it cannot be built."""
        found = [options(run, by) for run in runs]
        known = [run for run in found if run is not None]
        if len(known) < len(found):
            return None
        posts = sum(count for count, _ in known) + 2 * len(self.form.arms)
        return -posts, -min(len(frozenset().union(*sets)) for sets in product(*(sets for _, sets in known)))


def bare(project: Project, extent: float) -> Iterator[Bare]:
    """Every layout of a project before posts are chosen."""
    wish = project.wish
    thick = {EndKind.ARMED: project.frame.arm_thickness, EndKind.OPEN: project.frame.open_end_thickness}
    marks = {kind: -(-size.units // project.mark.units) for kind, size in thick.items()}
    for form in forms(project, extent):
        worths = sorted({worth for chosen in product(*form.corners()) if (worth := form.worth(chosen)) is not None})
        for right, left in product(EndKind, EndKind) if worths else ():
            if wish.right_end in (None, right) and wish.left_end in (None, left):
                runs = stretches(form, {Side.RIGHT: marks[right], Side.LEFT: marks[left]})
                yield Bare(form, tuple(runs), tuple(worths), tuple(form._ends(right, left)))


def carried_designs(project: Project, extent: float) -> Iterator[Design]:
    """Every layout of a project that is carried in pieces, in a room without low obstacles."""
    by = saw(project)
    for each in bare(project, extent):
        timber = each.timber(each.runs, by)
        if timber is not None:
            yield from (each.design((*worth, *timber)) for worth in each.worths)
