"""Back panels: uprights bolted to the back rails, a top and a bottom rail between them, slats behind those."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import pairwise

from fitter.domain.frame import Stance
from fitter.domain.layout import Face, PostRole, Side
from fitter.domain.levels import tilt
from fitter.domain.woodwork import Part, PartRole, Spread, Vector
from fitter.frame.slats import spread
from fitter.frame.spreads import told
from fitter.frame.sticks import Stick, stick, tilted
from fitter.frame.strips import Site, Strip


@dataclass(frozen=True)
class Panel:
    """A back panel that is built and carried as one.

    Args:
        strip: the run it stands behind.
        low: where it begins.
        high: where it ends.
        at_low: how its first upright stands.
        at_high: how its last one does.
    """

    strip: Strip
    low: int
    high: int
    at_low: Stance
    at_high: Stance


def panels(site: Site) -> Iterator[Panel]:
    """The panels of every run, one for each stretch between split lines."""
    made = site.options
    for strip in site.strips:
        low, at_low = _reach(site, strip, low=True)
        high, at_high = _reach(site, strip, low=False)
        cuts = (low, *strip.splits, high)
        for a, b in pairwise(cuts):
            first = at_low if a == low else made.upright_at_end
            last = at_high if b == high else made.upright_at_end
            if made.lean:
                first = last = Stance.EDGE
            yield Panel(strip, a, b, first, last)


def _reach(site: Site, strip: Strip, *, low: bool) -> tuple[int, Stance]:
    """How far a run's backs reach at one end: the main run's over the corner, unless the corner post stands there."""
    made = site.options
    edge = 0 if low else strip.end
    if strip.corner(low) is None:
        return edge, made.upright_at_end
    stance = Stance.EDGE if made.lean else made.upright_at_corner
    if strip.axis or strip.outside or stance is Stance.EDGE:
        return edge, stance
    # As far as the outside of the other back, but not so far that the upright would miss the other one's.
    over = min(site.back, site.wide(made.upright))
    return edge - over if low else edge + over, stance


def backs(site: Site) -> tuple[list[Part], list[Spread]]:
    """Every part of every back panel, and how the slats are spread."""
    parts: list[Part] = []
    spreads: list[Spread] = []
    bays: Counter[Side] = Counter()
    for panel in panels(site):
        bench = _Bench(site, panel)
        uprights = bench.uprights()
        parts += [bench.upright(a, b) for a, b in uprights]
        for (_, a), (b, _) in pairwise(uprights):
            bays[panel.strip.side] += 1
            more, how = bench.bay(bays[panel.strip.side], a, b)
            parts += more
            spreads.append(how)
    return parts, spreads


@dataclass(frozen=True)
class _Bench:
    """One panel in the making."""

    site: Site
    panel: Panel

    @cached_property
    def lean(self) -> tuple[Fraction, Fraction]:
        """Cosine and sine of the tilt."""
        return tilt(self.site.options.lean)

    @cached_property
    def height(self) -> int:
        """Of the panel along its slope, down to the mark."""
        levels = self.site.levels
        slant = Fraction((levels.back_top - levels.back_bottom).units) / self.lean[0]
        return slant.__floor__() // self.site.mark * self.site.mark

    def _across(self, stance: Stance) -> int:
        """How much of the run's length an upright takes."""
        section = self.site.options.upright
        return self.site.wide(section) if stance is Stance.FLAT else self.site.thick(section)

    def uprights(self) -> list[tuple[int, int]]:
        """From where to where each upright stands, rising."""
        panel, usual = self.panel, Stance.EDGE if self.site.options.lean else self.site.options.upright_at_end
        first = (panel.low, panel.low + self._across(panel.at_low))
        last = (panel.high - self._across(panel.at_high), panel.high)
        wide = self._across(usual)
        between = _between(self.site, panel.strip, first[1], last[0], wide)
        return [first, *((a, a + wide) for a in between), last]

    def upright(self, a: int, b: int) -> Part:
        """From the underside of the rails to the top; its front face lies on the back of the seat frame."""
        site, section = self.site, self.site.options.upright
        flat = b - a == site.wide(section)
        deep = site.thick(section) if flat else site.wide(section)
        z0, z1 = site.levels.rail_bottom.units, site.levels.back_top.units
        shows = f"{'wide' if flat else 'narrow'} face to the seat"
        kind = Stick(PartRole.UPRIGHT, self.panel.strip.side, section, shows, self._where(a, b))
        strip = self.panel.strip
        return stick(kind, strip.box(a, b, -deep, 0, z0, z1), 2, strip.axis if flat else strip.across)

    def _where(self, a: int, b: int) -> str:
        """At an end of the panel, or at a module line as the layout counts it."""
        strip = self.panel.strip
        if a == self.panel.low or b == self.panel.high:
            return "end of the panel"
        numbers = [n for n in range(strip.run.count + 1) if a <= strip.line(n) <= b]
        return f"module line {numbers[0]}" if numbers else "between modules"

    def bay(self, number: int, a: int, b: int) -> tuple[list[Part], Spread]:
        """The rails between two uprights, and the slats behind them."""
        site, strip, made = self.site, self.panel.strip, self.site.options
        deep, high = site.thick(made.back_rail), site.wide(made.back_rail)
        where = f"back bay {number}"
        parts = []
        for role, up in ((PartRole.BOTTOM_RAIL, 0), (PartRole.TOP_RAIL, self.height - high)):
            kind = Stick(role, strip.side, made.back_rail, "wide face to the seat", where)
            parts.append(self._placed(kind, (a, up, 0), 0, 1, (b - a, high, deep)))
        mark = site.mark
        least, limit = site.gaps(made.back_slat, made.back_gap)
        chosen = spread((b - a) // mark, site.wide(made.back_slat) // mark, limit, least)
        for start in chosen.starts:
            kind = Stick(PartRole.BACK_SLAT, strip.side, made.back_slat, "wide face to the back", where)
            at = (a + start * mark, 0, deep)
            parts.append(self._placed(kind, at, 1, 0, (self.height, chosen.width * mark, site.thick(made.back_slat))))
        return parts, told(site, strip, PartRole.BACK_SLAT, where, b - a, chosen)

    def _placed(self, kind: Stick, at: tuple[int, int, int], along: int, wide: int, size: tuple[int, int, int]) -> Part:
        """A part of the leaning plane: `at` counts along the run, up the slope and backward from its front face."""
        strip, levels, (cos, sin) = self.panel.strip, self.site.levels, self.lean
        s, q = strip.vectors()
        if not self.site.options.lean:
            sizes = [0, 0, size[2]]
            sizes[along], sizes[wide] = size[0], size[1]
            z = levels.back_bottom.units + at[1]
            box = strip.box(at[0], at[0] + sizes[0], -at[2] - sizes[2], -at[2], z, z + sizes[1])
            axes = (strip.axis, 2)
            return stick(kind, box, axes[along], axes[wide])
        up: Vector = (-sin * q[0], -sin * q[1], cos)
        behind: Vector = (-cos * q[0], -cos * q[1], -sin)
        x, y, z0 = strip.spot(at[0], 0, levels.back_bottom.units)
        origin = tuple(o + at[1] * u + at[2] * d for o, u, d in zip((x, y, z0), up, behind, strict=True))
        axes3 = (s, up)
        return tilted(kind, (origin[0], origin[1], origin[2]), (axes3[along], axes3[wide], behind), size)


def _between(site: Site, strip: Strip, low: int, high: int, wide: int) -> list[int]:
    """Where uprights begin between the outer ones: the fewest, on module lines, that keep every bay short enough.

    Lines that carry a back post come first among equals, then even bays; where module lines lie too far apart for
    that, the uprights stand at equal distances.
    """
    span = _span(site)
    half = wide // 2 // site.mark * site.mark
    places = [line - half for line in strip.lines if low < line - half and line - half + wide < high]
    posts = {
        strip.line(post.line) - half
        for post in site.layout.posts
        if post.run is strip.side and post.face is Face.BACK and post.role is PostRole.SUPPORT and post.line is not None
    }
    chosen = _fewest(places, posts, low, high, wide, span)
    if chosen is not None:
        return list(chosen)
    bays = -(-(high - low + wide) // (span + wide))
    step = Fraction(high - low + wide, bays)
    return [low + (step * i).__floor__() // site.mark * site.mark - wide for i in range(1, bays)]


def _span(site: Site) -> int:
    """The longest bay of a back panel: what is allowed, and what a board yields."""
    longest = site.project.shop.longest(site.options.back_rail.name)
    limit = site.options.back_span
    return max(site.mark, (min(limit, longest) if longest is not None else limit).units)


def _fewest(places: list[int], posts: set[int], low: int, high: int, wide: int, span: int) -> tuple[int, ...] | None:
    """The best choice of places that leaves no bay longer than the span, walking from place to place.

    Returns:
        Places, rising; None if no choice will do.
    """
    # By the place that was come to: how many before it, how many of them without a post, the widest bay, the places.
    reached: dict[int, tuple[int, int, int, tuple[int, ...]]] = {low - wide: (0, 0, 0, ())}
    for at in (*places, high):
        ways = [
            (count + (at < high), bare + (at < high and at not in posts), max(widest, at - last - wide), (*way, at))
            for last, (count, bare, widest, way) in reached.items()
            if 0 < at - last - wide <= span
        ]
        if ways:
            reached[at] = min(ways)
    return reached[high][3][:-1] if high in reached else None
