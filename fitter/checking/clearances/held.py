"""A layout as it is held against benchmarks: its shapes in the room, and how findings about it are made."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import ceil, floor

from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from fitter.checking.case import DUST
from fitter.domain.benchmarks import Benchmark
from fitter.domain.findings import Finding, Severity
from fitter.domain.layout import Box, Layout
from fitter.domain.project import Project
from rooms.lengths import ZERO, Length, format_length
from rooms.room import Edge, Obstacle


@dataclass(frozen=True)
class Held:
    """A layout beside its project; distances are the worst ones within the tolerance of the tape."""

    project: Project
    layout: Layout

    @cached_property
    def things(self) -> tuple[Polygon, ...]:
        """All that stands on the floor or overhangs it, box by box, in units of the room."""
        return tuple(self.area(box) for box in self.layout.footprint)

    @cached_property
    def whole(self) -> BaseGeometry:
        """The same in one piece."""
        return unary_union(self.things)

    def area(self, box: Box) -> Polygon:
        """A box in the room, in units."""
        return Polygon([(float(x), float(y)) for x, y in self.layout.pose.outline(box)])

    def size(self, benchmark: Benchmark) -> Length:
        """What a benchmark asks for in this project."""
        return benchmark.size(self.project.unit)

    def short(self, distance: Length, benchmark: Benchmark) -> bool:
        """Whether a distance is less than a benchmark asks for, dust of floats aside."""
        return distance < self.size(benchmark) - DUST

    def near(self, shape: BaseGeometry, *others: BaseGeometry, less: Length = ZERO) -> Length:
        """From a shape to what stands, or to other shapes, less what is to be taken off; not below zero."""
        gap = min(float(shape.distance(other)) for other in others or (self.whole,))
        return max(ZERO, Length(floor(gap)) - less - self.project.room.tolerance)

    def near_obstacle(self, obstacle: Obstacle) -> Length:
        """From an obstacle to what stands."""
        spots = [(spot.x.units, spot.y.units) for spot in obstacle.core]
        return self.near(Polygon(spots) if len(spots) > 2 else Point(spots[0]), less=obstacle.radius)

    def tell(self, length: Length) -> str:
        """A length for a message, down to the shop mark."""
        marked = (length + DUST).floor_to(self.project.mark)
        return format_length(marked, self.project.unit)

    def tell_up(self, units: float) -> tuple[Length, str]:
        """A length that is to be short, up to the shop mark, and how it is written."""
        length = Length(ceil(units - DUST.units)).ceil_to(self.project.mark)
        return length, format_length(length, self.project.unit)

    def asked(self, benchmark: Benchmark) -> str:
        """What a benchmark asks for, as a tape shows it."""
        return format_length(self.size(benchmark), self.project.unit)

    def missed(self, benchmark: Benchmark, code: str, message: str, key: str, help: str) -> Finding:
        """A benchmark that is not kept: a caution, or an error where the file asks for its topic."""
        strict = benchmark.topic in self.project.wish.strict
        severity = Severity.ERROR if strict else Severity.CAUTION
        return Finding(code, message, key, self.project.place(key), help, benchmark.told, severity)

    def noted(self, benchmark: Benchmark, code: str, message: str, key: str, help: str = "") -> Finding:
        """A benchmark that is kept by an exception to it."""
        return Finding(code, message, key, self.project.place(key), help, benchmark.told, Severity.NOTE)


def line_of(edge: Edge) -> LineString:
    """An edge in the room, in units."""
    return LineString([(edge.start.x.units, edge.start.y.units), (edge.end.x.units, edge.end.y.units)])
