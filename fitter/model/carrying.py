"""Where a frame is split into pieces that can be carried, and where posts then stand: the fewest of each kept."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import product

from fitter.model import bays

Lengths = frozenset[int]


@dataclass(frozen=True)
class Track:
    """A line of rails of a run, counted from where its clear opening begins, in marks.

    Args:
        length: of the clear opening.
        zero: where module line 0 lies.
        carrying: numbers of the module lines that may carry a post of their own.
        must: numbers of those that have to carry a post, be it one of a split.
    """

    length: int
    zero: int
    carrying: tuple[int, ...]
    must: tuple[int, ...] = ()


@dataclass(frozen=True)
class Spine:
    """A run that may be split, along its length, in marks.

    Args:
        pitch: of its modules.
        count: of its modules.
        before: how far it reaches beyond module line 0: an end, or a corner place and what stands behind it.
        after: how far it reaches beyond its last module line.
        may: module lines at which it may be split.
        must: module lines at which it has to be.
        front: the front line of rails.
        back: the back line.
    """

    pitch: int
    count: int
    before: int
    after: int
    may: tuple[int, ...]
    must: tuple[int, ...]
    front: Track
    back: Track

    def without(self, splits: frozenset[int], front: frozenset[int], back: frozenset[int]) -> Spine:
        """The run where some module lines cannot be split, and some cannot carry a post."""

        def kept(track: Track, blocked: frozenset[int]) -> Track:
            return replace(track, carrying=tuple(k for k in track.carrying if k not in blocked))

        may = tuple(k for k in self.may if k not in splits)
        return replace(self, may=may, front=kept(self.front, front), back=kept(self.back, back))

    def section(self, low: int | None, high: int | None) -> int:
        """How long the piece between two split lines is; None for an end of the run."""
        start = -self.before if low is None else low * self.pitch
        end = self.count * self.pitch + self.after if high is None else high * self.pitch
        return end - start

    def beside(self, track: Track, line: int) -> int:
        """How many posts a split adds to a line of rails: at an inner corner its post is one of the two already."""
        at = track.zero + line * self.pitch
        return 2 - (at == 0) - (at == track.length)


@dataclass(frozen=True)
class Cut:
    """A run as it is split.

    Args:
        lines: module lines at which it is split.
        front: module lines that carry a post of their own in front.
        back: the same behind.
    """

    lines: tuple[int, ...] = ()
    front: tuple[int, ...] = ()
    back: tuple[int, ...] = ()


Ranked = tuple[int, Cut]
"""How many posts stand on lines of their own, and the cut; less is better."""


@dataclass(frozen=True)
class Ways:
    """Every way to split a run as seldom as can be, with the fewest posts.

    Args:
        splits: how often it is split.
        posts: on its front and its back line together, the inner corner's not counted.
        by_lengths: the best cut for each set of rail lengths.
    """

    splits: int
    posts: int
    by_lengths: dict[Lengths, Ranked]


@lru_cache(maxsize=4096)
def ways(spine: Spine, post: int, span: int, longest: int, *, seldom: bool = True) -> Ways | None:
    """The fewest splits that leave no piece longer than can be carried, and then the fewest posts.

    What lies between two splits does not depend on where the others are, so splits are found like the stations of a
    shortest way, and all shortest ways are kept.

    Args:
        spine: the run.
        post: width of a post.
        span: the longest clear opening.
        longest: the longest piece that can be carried.
        seldom: False for the fewest posts of any number of splits.

    Returns:
        The ways; None if there is none.
    """
    if not set(spine.must) <= set(spine.may):
        return None
    stations: list[int | None] = [None, *spine.may, None]
    reached: dict[int, Ways] = {0: Ways(0, 0, {frozenset(): (0, Cut())})}
    for n, high in enumerate(stations[1:], start=1):
        for m, low in enumerate(stations[:n]):
            if m not in reached or spine.section(low, high) > longest:
                continue
            if any(k in spine.must for k in spine.may[m : n - 1]):
                continue
            between = _between(spine, low, high, post, span)
            if between is not None:
                longer = _joined(reached[m], between, high, counted=seldom)
                reached[n] = _better(reached.get(n), longer)
    return reached.get(len(stations) - 1)


def _joined(before: Ways, between: Ways, split: int | None, *, counted: bool) -> Ways:
    """A way to a station, and on to a split, which may be counted, or to the end of the run."""
    line = () if split is None else (split,)
    found: dict[Lengths, Ranked] = {}
    pairs = product(before.by_lengths.items(), between.by_lengths.items())
    for (some, (apart, cut)), (others, (more, stretch)) in pairs:
        joined = Cut((*cut.lines, *line), (*cut.front, *stretch.front), (*cut.back, *stretch.back))
        _keep(found, some | others, (apart + more, joined))
    return Ways(before.splits + counted * len(line), before.posts + between.posts, found)


def _better(known: Ways | None, found: Ways) -> Ways:
    """The ways with fewer splits, then fewer posts; of equal ones both."""
    if known is None or (found.splits, found.posts) < (known.splits, known.posts):
        return found
    if (found.splits, found.posts) == (known.splits, known.posts):
        for lengths, ranked in found.by_lengths.items():
            _keep(known.by_lengths, lengths, ranked)
    return known


def _keep(found: dict[Lengths, Ranked], lengths: Lengths, ranked: Ranked) -> None:
    known = found.get(lengths)
    if known is None or _order(ranked) < _order(known):
        found[lengths] = ranked


def _order(ranked: Ranked) -> tuple[int, tuple[int, ...], tuple[int, ...], tuple[int, ...]]:
    apart, cut = ranked
    return apart, cut.lines, cut.front, cut.back


@lru_cache(maxsize=1 << 14)
def _between(spine: Spine, low: int | None, high: int | None, post: int, span: int) -> Ways | None:
    """The posts of the piece between two split lines, with those that its far one adds; None if none keep the span."""
    faces = [list(_stretches(spine, track, low, high, post, span)) for track in (spine.front, spine.back)]
    if not all(faces):
        return None
    found: dict[Lengths, Ranked] = {}
    for (front, fronts), (back, backs) in product(*faces):
        _keep(found, fronts | backs, (len({*front} ^ {*back}), Cut((), front, back)))
    posts = sum(len(some[0][0]) for some in faces)
    if high is not None:
        posts += spine.beside(spine.front, high) + spine.beside(spine.back, high)
    return Ways(0, posts, found)


def _stretches(
    spine: Spine, track: Track, low: int | None, high: int | None, post: int, span: int
) -> Iterator[tuple[tuple[int, ...], Lengths]]:
    """Every way to stand the fewest posts between two splits of a line of rails, with the lengths of its rails."""

    def at(line: int) -> int:
        return track.zero + line * spine.pitch

    start = 0 if low is None else at(low) + post
    stop = track.length if high is None else at(high) - post
    if (low is None and stop == -post) or (high is None and start == track.length + post):
        # The inner corner post is one half of that split; the line ends there.
        yield (), frozenset()
        return
    numbers = [k for k in track.carrying if (low is None or k > low) and (high is None or k < high)]
    places = {at(k) - start: k for k in numbers}
    must = tuple(at(k) - start for k in track.must if (low is None or k > low) and (high is None or k < high))
    line = bays.RailLine(stop - start, tuple(places), must)
    for split in bays.splits(line, post, span) if line.length > 0 else ():
        yield tuple(places[place] for place in split), frozenset(bays.rails(line.length, split, post))


@dataclass(frozen=True)
class Carried:
    """A whole frame as it is split.

    Args:
        cuts: of each run.
        posts: on all lines of rails.
        lengths: different rail lengths.
    """

    cuts: tuple[Cut, ...]
    posts: int
    lengths: int


@lru_cache(maxsize=4096)
def choose(spines: tuple[Spine, ...], post: int, span: int, longest: int) -> Carried | None:
    """One cut for each run, the best of all.

    Fewest splits in each, then fewest posts in each, then fewest different rail lengths over all, then most posts of
    front and back on one module line, then the first in order: split lines before posts.

    Args:
        spines: the runs.
        post: width of a post.
        span: the longest clear opening.
        longest: the longest piece that can be carried.

    Returns:
        The cuts; None if some run has none.
    """
    found = [each for spine in spines if (each := ways(spine, post, span, longest)) is not None]
    if len(found) < len(spines):
        return None
    best: tuple[int, list[tuple[int, ...]]] | None = None
    chosen: tuple[Cut, ...] = ()
    lengths = 0
    for sets in bays.fewest_lengths([each.by_lengths for each in found]):
        ranked = [each.by_lengths[some] for each, some in zip(found, sets, strict=True)]
        cuts = tuple(cut for _, cut in ranked)
        order = [*(cut.lines for cut in cuts), *(face for cut in cuts for face in (cut.front, cut.back))]
        rank = (sum(apart for apart, _ in ranked), order)
        if best is None or rank < best:
            best, chosen, lengths = rank, cuts, len(frozenset().union(*sets))
    return Carried(chosen, sum(each.posts for each in found), lengths)
