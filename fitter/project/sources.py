"""Defaults that a project uses because its file says nothing, and benchmarks that its layouts are held against."""

from __future__ import annotations

from collections.abc import Iterator

from fitter.domain.benchmarks import BENCHMARKS, FLAME, ROUTE, Topic, Weight
from fitter.domain.evidence import Source, Status
from fitter.domain.frame import RailJoint
from fitter.domain.levels import ARM_ABOVE, BACK_ABOVE, in_units
from fitter.domain.project import Project
from fitter.domain.requirements import obstacle_key
from fitter.domain.sources import Told
from fitter.domain.wishes import FillWish, Shape
from fitter.project.defaults import defaults
from rooms.lengths import Length
from rooms.room import EdgeKind, Height, Swing

_PRACTICE = Source("", Status.PRACTICE)
_MEMORY = Source("", Status.MEMORY)
_BENCH = Source("2010 ADA Standards, 903, seat of a bench 17 to 19 in high", Status.VERIFIED)
_BACK = Source("2010 ADA Standards, 903, back of a bench 18 in or more above the seat", Status.VERIFIED)
_LEAF = Source("the quarter circle that its leaf sweeps", Status.COMPUTED)
_NARROWER = Source("less than catches a head: CPSC Public Playground Safety Handbook, B.2.5", Status.PRACTICE)


def unsaid(project: Project) -> tuple[Told, ...]:
    """Every default length that a project uses, and what is kept clear for doors, in the order of a file."""
    found = (*_room(project), *_wish(project), *_heights(project), *_wood(project))
    return tuple(told for told in found if told.key not in project.places)


def held_against(project: Project) -> tuple[Told, ...]:
    """The benchmarks that matter to a room and to what is asked for in it."""
    topics = tuple(_topics(project))
    return tuple(
        Told("", benchmark.says, benchmark.size(project.unit), benchmark.source, benchmark.weight)
        for benchmark in BENCHMARKS
        if benchmark.topic in topics
    )


def _topics(project: Project) -> Iterator[Topic]:
    room = project.room
    kinds = [edge.kind for edge in room.edges]
    if room.routes:
        yield Topic.ROUTES
    if len(room.openings) == 1 or project.wish.shape in (None, Shape.U):
        yield Topic.TURNS
    if any(room.edge(opening.edge).kind is EdgeKind.WALL for opening in room.openings):
        yield Topic.DOORS
    if EdgeKind.RAILING in kinds or any(edge.drop for edge in room.edges):
        yield Topic.GUARDS
    if EdgeKind.STEP in kinds or any(edge.drop and edge.kind is EdgeKind.OPEN for edge in room.edges):
        yield Topic.STEPS
    if any(obstacle.open_flame for obstacle in room.obstacles):
        yield Topic.FLAMES
    if any(obstacle.height is Height.REACH for obstacle in room.obstacles):
        yield Topic.REACH


def _room(project: Project) -> Iterator[Told]:
    room = project.room
    yield _habit("room.tolerance", "of one tape reading", room.tolerance)
    for opening in room.openings:
        if opening.swing is Swing.IN:
            says = f"kept clear for the leaf of `{opening.name}`"
            yield Told("", says, opening.width, _LEAF, Weight.GEOMETRY)
    for n, obstacle in enumerate(room.obstacles):
        key = f"{obstacle_key(room, n)}.clear"
        if obstacle.open_flame:
            yield Told(key, f"around open flame `{obstacle.name}`", obstacle.clear, FLAME.source, FLAME.weight)
        elif obstacle.height is Height.REACH:
            yield _habit(key, f"ground before `{obstacle.name}`", obstacle.clear)
    for n, route in enumerate(room.routes):
        says = f"width of route `{route.name}`"
        yield Told(f"room.routes.{n}.width", says, route.width, ROUTE.source, ROUTE.weight)


def _wish(project: Project) -> Iterator[Told]:
    if project.wish.against is not None:
        yield _habit("wish.off_wall", "backs off their edge, at most", project.wish.off_wall)
    yield _habit("wish.legroom", "clear before the seats", project.wish.legroom)


def _heights(project: Project) -> Iterator[Told]:
    made, unit = project.frame.carpentry, project.unit
    if made.reveal_below is None:
        yield Told("frame.seat_height", "floor to the top of a seat", made.seat_height, _BENCH, Weight.BENCHMARK)
    if made.arm_height is None:
        above = in_units(ARM_ABOVE, unit)
        yield Told("frame.arm_height", "arms above a seat that is sat on", above, _MEMORY, Weight.CHOICE)
    if made.back_height is None and not any(cushion.back for cushion in project.cushions):
        yield Told("frame.back_height", "backs above the seat", in_units(BACK_ABOVE, unit), _BACK, Weight.BENCHMARK)
    share = 100 * made.compression
    yield Told("frame.compression", "how far a cushion gives way", f"{float(share):g} %", _PRACTICE, Weight.CHOICE)


def _wood(project: Project) -> Iterator[Told]:
    frame, made, usual = project.frame, project.frame.carpentry, defaults(project.unit)
    for part, section in usual.sections.items():
        used = getattr(frame, part) if part in ("post", "rail", "angle") else getattr(made, part)
        kind = part.replace("_", " ")
        if used.name == section:
            yield Told(f"frame.sections.{part}", f"section of {kind}", section, _PRACTICE, Weight.CHOICE)
    yield _habit("frame.max_span", "longest rail, face to face", frame.max_span)
    yield _habit("frame.notch_clearance", "air between a post and its notch", frame.notch_clearance)
    yield _habit("frame.back_span", "between uprights, at most", made.back_span)
    # One length serves both, a mapping may leave one of them out.
    apart = any(f"frame.slat_gap.{face}" in project.places for face in ("seat", "back"))
    if apart or "frame.slat_gap" not in project.places:
        for face, gap in (("seat", made.slat_gap), ("back", made.back_gap)):
            says = f"between {face} slats, at most"
            yield Told(f"frame.slat_gap.{face}", says, gap, _NARROWER, Weight.CHOICE)
    if made.rail_joint is RailJoint.HOUSING:
        yield _habit("frame.housing", "depth of a housing", made.housing)
    if project.wish.fill is not FillWish.NONE:
        yield _habit("frame.fill.least", "narrowest shelf", frame.fills.least)
        yield _habit("frame.fill.arm", "widest addition to an arm", frame.fills.arm)
    yield _habit("shop.kerf", "saw cut", project.shop.kerf)


def _habit(key: str, says: str, value: Length) -> Told:
    return Told(key, says, value, _PRACTICE, Weight.CHOICE)
