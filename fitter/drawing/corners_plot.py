"""How the notch of an inside post shrinks with the ground that this takes: a small diagram."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby, pairwise
from math import cos, radians, sin

from shapely.geometry import LineString, Polygon, box

from fitter.domain.tradeoff import Step
from fitter.drawing.draft import Draft
from fitter.drawing.page import MEDIUM, SMALL, Area, Dash, Item, Line, Pen, Role, Spot, Text
from fitter.drawing.texts import around
from rooms.lengths import UNITS_PER_INCH, UNITS_PER_MM

_LEFT, _FOOT, _TOP, _RIGHT = 13.0, 15.0, 11.0, 8.0  # around the field, mm
_DOT = 1.0  # radius of a mark, mm
_TICK = 1.2
_WIDER = Fraction(5, 4)  # than what fits or overhangs the field reaches
FITS = 0.6
"""How light the mark of a step is that fits and is beaten."""
_NICE = (Fraction(1, 2), Fraction(1), Fraction(2), Fraction(5))


@dataclass(frozen=True)
class _Axes:
    """From ground and notch to the page.

    Args:
        imperial: square feet and inches, else square metres and centimetres.
        size: of the field, mm.
        most: greatest ground and notch that are shown, in these units.
    """

    imperial: bool
    size: Spot
    most: tuple[Fraction, Fraction]

    def values(self, step: Step) -> tuple[Fraction, Fraction]:
        """Ground added and notch, in the units of the axes."""
        foot, inch = (
            (12 * UNITS_PER_INCH, UNITS_PER_INCH) if self.imperial else (1000 * UNITS_PER_MM, 10 * UNITS_PER_MM)
        )
        return Fraction(step.larger, foot**2), Fraction(step.notch.units, inch)

    def at(self, values: tuple[Fraction, Fraction]) -> Spot:
        """Where a pair of values lies."""
        return tuple(
            start + float(value / most) * size
            for start, value, most, size in zip((_LEFT, _FOOT), values, self.most, self.size, strict=True)
        )  # type: ignore[return-value]


def front_plot(steps: Sequence[Step], imperial: bool, width: float, height: float) -> tuple[Item, ...]:
    """Draw all steps, those of one post and one kind of change joined; the front in black.

    Args:
        steps: in the order of the table.
        imperial: whether square feet and inches are shown.
        width: of the diagram with its words, mm.
        height: the same.

    Returns:
        The diagram, its lower left corner at (0, 0).
    """
    bare = _Axes(imperial, (1.0, 1.0), (Fraction(1), Fraction(1)))
    pairs = [bare.values(step) for step in steps]
    # Ease takes so much ground that its far end would press all else together.
    near = [bare.values(step)[0] for step in steps if not step.more or step.fits]
    most = _WIDER * max(near) or max(x for x, _ in pairs) or Fraction(1), max(y for _, y in pairs) or Fraction(1)
    axes = _Axes(imperial, (width - _LEFT - _RIGHT, height - _FOOT - _TOP), most)
    draft = Draft()
    draft.add(*_frame(axes, width, height))
    field = box(_LEFT, _FOOT, _LEFT + axes.size[0], _FOOT + axes.size[1])
    for path in _paths(steps):
        spots = [axes.at(axes.values(step)) for step in path]
        dash = Dash.HIDDEN if path[-1].more else Dash.SOLID
        for pair in pairwise(spots):
            inside = LineString(pair).intersection(field)
            if isinstance(inside, LineString) and inside.length > 0:
                draft.add(Line(tuple(inside.coords), Pen.FINE, Role.PANEL, dash))
    for step in (step for step in steps if axes.values(step)[0] <= most[0]):
        draft.add(dot(axes.at(axes.values(step)), 0.0 if step.front else FITS if step.fits else 1.0))
    for path in _paths(steps):
        if axes.values(path[-1])[0] > most[0]:
            draft.put(_within(_far_end(axes, field, path), width))
    starts = {step.post.name: step for step in reversed(steps)}
    for name, step in starts.items():
        spot = axes.at(axes.values(step))
        told = f"{name}, {_cents(step)}" if step.front and step.cents is not None else name
        places = [each for text in dict.fromkeys((told, name)) for each in _beside(spot, text, (2.0, 2.8, 3.6, 4.4))]
        draft.put(_within(places, width))
    for step in steps:
        if step.front and step.cents is not None and step is not starts[step.post.name]:
            spot = axes.at(axes.values(step))
            draft.put(_within(_beside(spot, _cents(step), (0.0, 1.2, -1.2, 2.4, 3.0)), width))
    return tuple(draft.items)


def _cents(step: Step) -> str:
    assert step.cents is not None
    return f"{step.cents // 100}.{step.cents % 100:02}"


def _beside(spot: Spot, text: str, ups: Sequence[float]) -> Iterator[Text]:
    """Right of a mark, then left of it, so far above its middle."""
    for up in ups:
        for aside, anchor in ((2.0, 0.0), (-2.0, 1.0)):
            yield Text((spot[0] + aside, spot[1] - SMALL / 2 + up), text, SMALL, 0.0, anchor, Role.PANEL)


def _far_end(axes: _Axes, field: Polygon, path: Sequence[Step]) -> Iterable[Text]:
    """Where a line leaves the field: the ground at which it comes down to no notch."""
    inside = LineString([axes.at(axes.values(step)) for step in path]).intersection(field)
    end: Spot = inside.coords[-1]
    return around(f"0 at {float(axes.values(path[-1])[0]):.{0 if axes.imperial else 1}f}", end, 2.0, role=Role.PANEL)


def _within(places: Iterable[Text], width: float) -> Iterator[Text]:
    """Those that lie in the field, above its axis."""
    for text in places:
        (x0, y0), (x1, _), *_ = text.box
        if x0 > _LEFT + 0.5 and x1 < width and y0 > _FOOT + 0.5:
            yield text


def _paths(steps: Sequence[Step]) -> Iterator[list[Step]]:
    """The steps of one post: from its first one through all with more ease, and through all with more overhang."""
    for _, group in groupby(steps, key=lambda step: step.post.name):
        first, *others = list(group)
        for eased in (True, False):
            more = [step for step in others if bool(step.more) is eased]
            if more:
                yield [first, *more]


def dot(at: Spot, grey: float) -> Area:
    """The mark of a step: black where it is unbeaten, grey where it fits, white where it does not."""
    ring = tuple((at[0] + _DOT * cos(radians(a)), at[1] + _DOT * sin(radians(a))) for a in range(0, 360, 20))
    return Area(ring, grey, Role.PANEL, Pen.FINE)


def _frame(axes: _Axes, width: float, height: float) -> Iterator[Item]:
    x0, y0 = _LEFT, _FOOT
    x1, y1 = x0 + axes.size[0], y0 + axes.size[1]
    yield Line(((x0, y1), (x0, y0), (x1, y0)), Pen.MEDIUM, Role.PANEL)
    yield Text((0.0, height - MEDIUM), "Notch of an inside post", MEDIUM, role=Role.PANEL)
    units = ("sq ft", "inches") if axes.imperial else ("m²", "cm")
    for value in _ticks(axes.most[0]):
        x = axes.at((value, Fraction(0)))[0]
        yield Line(((x, y0), (x, y0 - _TICK)), Pen.FINE, Role.PANEL)
        yield Text((x, y0 - _TICK - SMALL - 0.8), f"{float(value):g}", SMALL, anchor=0.5, role=Role.PANEL)
    for value in _ticks(axes.most[1]):
        y = axes.at((Fraction(0), value))[1]
        yield Line(((x0, y), (x0 - _TICK, y)), Pen.FINE, Role.PANEL)
        yield Text((x0 - _TICK - 0.8, y - SMALL / 2), f"{float(value):g}", SMALL, anchor=1.0, role=Role.PANEL)
    yield Text((x1, 1.5), f"ground added, {units[0]}", SMALL, anchor=1.0, role=Role.PANEL)
    yield Text((4.0, (y0 + y1) / 2), f"notch, {units[1]}", SMALL, 90.0, 0.5, Role.PANEL)


def _ticks(most: Fraction) -> list[Fraction]:
    """Round values from nothing up, five or six of them."""
    power = Fraction(10) ** (len(str(int(most))) - 1) if most >= 1 else Fraction(1, 10)
    step = next(nice * power for nice in (Fraction(1, 5), *_NICE) if most / (nice * power) <= 6)
    return [step * n for n in range(int(most / step) + 1)]
