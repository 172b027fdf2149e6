"""A right layout passes, and every kind of tampering with it is told by its own code."""

# ruff: noqa: E501 - one line for one kind of tampering

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest
from hand_built import box, ell, inch, project, straight

from fitter.checking import check_layout, route_widths
from fitter.domain.cushions import Cushion
from fitter.domain.findings import Severity
from fitter.domain.layout import Box, Face, Layout, PostRole, Side
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, EndKind, Shape
from rooms.lengths import ZERO, Length
from rooms.room import Obstacle, Opening, Point, Swing

INSIDE, OUTSIDE, TABLE = CornerKind.INSIDE_POST, CornerKind.OUTSIDE_POST, CornerKind.TABLE_CORNER
HANDS = (Side.RIGHT, Side.LEFT)
Tamper = Callable[[Layout], Layout]


def codes(asked: Project, layout: Layout) -> list[str]:
    """What is found wrong, each code once."""
    return list(dict.fromkeys(finding.code for finding in check_layout(asked, layout)))


def shifted(plan: Box, dx: str = "0", dy: str = "0") -> Box:
    """A box moved by inches."""
    x, y = inch(dx), inch(dy)
    return Box(plan.x0 + x, plan.y0 + y, plan.x1 + x, plan.y1 + y)


def changed(layout: Layout, part: str, index: int, **new: object) -> Layout:
    """A layout with other values in one of its parts."""
    parts = list(getattr(layout, part))
    parts[index] = replace(parts[index], **new)
    return replace(layout, **{part: tuple(parts)})


def without(layout: Layout, part: str, index: int) -> Layout:
    """A layout that lacks one of its parts."""
    parts = list(getattr(layout, part))
    del parts[index]
    return replace(layout, **{part: tuple(parts)})


def moved(layout: Layout, dx: str, dy: str) -> Layout:
    """A layout shifted as a whole within its frame."""

    def over(value: object) -> object:
        if isinstance(value, Box):
            return shifted(value, dx, dy)
        if isinstance(value, tuple):
            return tuple(over(part) for part in value)
        if hasattr(value, "box") or hasattr(value, "deck"):
            return type(value)(**{name: over(part) for name, part in vars(value).items()})
        return value

    values = {name: over(part) for name, part in vars(layout).items()}
    return replace(Layout(**values), pose=layout.pose, off_edge=layout.off_edge + inch(dy))  # type: ignore[arg-type]


class TestRightLayouts:
    def test_straight(self) -> None:
        assert check_layout(project(), straight()) == ()

    @pytest.mark.parametrize(("corner", "hand"), list(product(CornerKind, HANDS)))
    def test_l(self, corner: CornerKind, hand: Side) -> None:
        assert check_layout(project(), ell(corner, hand)) == ()

    def test_a_layout_moved_as_a_whole_is_still_right(self) -> None:
        assert check_layout(project(), moved(straight(), "7/16", "-1/16")) == ()

    def test_backing_onto_another_edge(self) -> None:
        pose = replace(straight().pose, origin=Point(inch(200), ZERO), cos=Fraction(0), sin=Fraction(1), edge="BC")
        asked = project()
        gateless = replace(asked, room=replace(asked.room, routes=(), openings=asked.room.openings[:1]))
        assert check_layout(gateless, replace(straight(), pose=pose)) == ()

    def test_free_standing(self) -> None:
        asked = project()
        free = replace(asked, wish=replace(asked.wish, against=None))
        layout = straight()
        assert check_layout(free, replace(layout, pose=replace(layout.pose, edge=None))) == ()
        # The same seen from the far corner: turned half round, so that the backs are 150 in less off it.
        pose = replace(layout.pose, origin=Point(inch(200), inch(150)), cos=Fraction(-1), edge=None)
        far = replace(free, room=replace(free.room, routes=(), openings=(), obstacles=()))
        assert check_layout(far, replace(layout, pose=pose)) == ()


STRAIGHT: list[tuple[str, Tamper, str]] = [
    ("module moved", lambda a: changed(a, "modules", 1, box=shifted(a.modules[1].box, "1/16")), "module-place"),
    ("module on another", lambda a: changed(a, "modules", 1, box=shifted(a.modules[1].box, "-2")), "overlap"),
    ("module lacks", lambda a: without(a, "modules", 2), "count"),
    ("module twice", lambda a: changed(a, "modules", 2, place=2), "count"),
    ("count", lambda a: changed(a, "runs", 0, count=4), "count"),
    ("seats", lambda a: changed(a, "modules", 0, seats=2), "seats"),
    ("unknown cushion", lambda a: changed(a, "runs", 0, cushion="round"), "cushion"),
    ("other cushion", lambda a: changed(a, "modules", 0, cushion="round"), "cushion"),
    ("turned", lambda a: changed(a, "modules", 0, turned=True), "cushion"),
    ("pitch", lambda a: changed(a, "runs", 0, pitch=inch(24)), "pitch"),
    ("deck", lambda a: changed(a, "runs", 0, deck=box(20, 5, 90, 29)), "deck"),
    ("back panel", lambda a: changed(a, "runs", 0, back=shifted(a.runs[0].back, "0", "1/2")), "back"),
    ("leg room short", lambda a: changed(a, "runs", 0, legroom=box(20, "117/4", "371/4", 40)), "legroom"),
    ("end moved", lambda a: changed(a, "ends", 0, box=shifted(a.ends[0].box, "1")), "ends"),
    ("end lacks", lambda a: without(a, "ends", 1), "ends"),
    ("end of another kind", lambda a: changed(a, "ends", 1, kind=EndKind.OPEN), "ends"),
    ("footprint", lambda a: replace(a, footprint=(shifted(a.footprint[0], "0", "1"),)), "footprint"),
    ("rail shrunk", lambda a: changed(a, "rails", 1, length=a.rails[1].length - inch("1/16")), "rail-length"),
    ("rail plan shrunk", lambda a: changed(a, "rails", 0, box=box(20, "111/4", 42, "117/4")), "rail-fill"),
    ("rail off the front", lambda a: changed(a, "rails", 0, box=shifted(a.rails[0].box, "0", "-1")), "rail-fill"),
    ("rail lacks", lambda a: without(a, "rails", 3), "rail-fill"),
    ("bays miscounted", lambda a: changed(a, "rails", 1, bay=3), "rail-fill"),
    ("post dropped", lambda a: without(a, "posts", 0), "rail-fill"),
    ("post off its line", lambda a: changed(a, "posts", 0, box=shifted(a.posts[0].box, "1/16")), "post"),
    ("post at no line", lambda a: changed(a, "posts", 0, line=3), "post"),
    ("post at the start", lambda a: changed(a, "posts", 0, line=0), "post"),
    ("post not flush", lambda a: changed(a, "posts", 1, box=shifted(a.posts[1].box, "0", "1")), "post"),
    ("post of no line", lambda a: changed(a, "posts", 1, face=Face.CROSS), "post"),
    ("corner post", lambda a: changed(a, "posts", 1, role=PostRole.CORNER), "post"),
    ("posts in one place", lambda a: replace(a, posts=(*a.posts, a.posts[0])), "overlap"),
    ("another run", lambda a: changed(a, "rails", 1, run=Side.LEFT), "count"),
    ("notch in a run", lambda a: changed(a, "modules", 1, notch=ell(INSIDE, Side.RIGHT).modules[0].notch), "notch"),
    ("not on the mark", lambda a: moved(a, "1/32", "0"), "mark"),
    ("turn is no rotation", lambda a: replace(a, pose=replace(a.pose, cos=Fraction(999999, 10**6))), "pose"),
    ("turned a little", lambda a: replace(a, pose=replace(a.pose, cos=Fraction(99999, 100001), sin=Fraction(632, 100001))), "pose"),
    ("shifted", lambda a: replace(a, pose=replace(a.pose, origin=Point(inch(1), ZERO))), "pose"),
    ("unknown edge", lambda a: replace(a, pose=replace(a.pose, edge="XY")), "pose"),
    ("edge not asked", lambda a: replace(a, pose=replace(a.pose, edge="CD")), "against"),
    ("no edge", lambda a: replace(a, pose=replace(a.pose, edge=None)), "against"),
    ("too far off", lambda a: moved(a, "0", "2"), "against"),
    ("off-edge told wrong", lambda a: replace(a, off_edge=ZERO), "against"),
    ("beside its edge", lambda a: moved(a, "150", "0"), "against"),
    ("out of the room", lambda a: moved(a, "0", "-2"), "outside-room"),
    ("out at the side", lambda a: moved(a, "-19", "0"), "outside-room"),
    ("too close", lambda a: moved(a, "-293/16", "0"), "too-close"),
    ("hand", lambda a: replace(a, hand=Side.LEFT), "shape"),
    ("no run", lambda a: replace(a, runs=()), "shape"),
    ("named L", lambda a: replace(a, shape=Shape.L), "shape"),
]  # fmt: skip

ELL: list[tuple[str, Tamper, str]] = [
    ("corner moved", lambda a: changed(a, "modules", 0, box=shifted(a.modules[0].box, "1/16")), "module-place"),
    ("corner lacks", lambda a: without(a, "modules", 0), "shape"),
    ("corner is a table", lambda a: changed(a, "modules", 0, cushion=None, seats=0), "shape"),
    ("treatment lacks", lambda a: replace(a, corner=None), "shape"),
    ("other treatment", lambda a: replace(a, corner=OUTSIDE), "post"),
    ("other hand", lambda a: replace(a, hand=Side.LEFT), "shape"),
    ("notch lacks", lambda a: changed(a, "modules", 0, notch=None), "notch"),
    ("notch small", lambda a: changed(a, "modules", 0, notch=replace(a.modules[0].notch, along_x=inch(3))), "notch"),  # type: ignore[type-var]
    ("notch elsewhere", lambda a: changed(a, "modules", 0, notch=replace(a.modules[0].notch, box=shifted(a.modules[0].notch.box, "9"))), "notch"),  # type: ignore[union-attr, type-var]
    ("side deck", lambda a: changed(a, "runs", 1, deck=shifted(a.runs[1].deck, "1")), "deck"),
    ("side back", lambda a: changed(a, "runs", 1, back=shifted(a.runs[1].back, "1")), "back"),
    ("side end", lambda a: changed(a, "ends", 1, box=shifted(a.ends[1].box, "0", "1")), "ends"),
    ("side leg room", lambda a: changed(a, "runs", 1, legroom=shifted(a.runs[1].legroom, "1")), "legroom"),
    ("inner post moved", lambda a: changed(a, "posts", 3, box=shifted(a.posts[3].box, "1/16")), "post"),
    ("corner post dropped", lambda a: without(a, "posts", 4), "post"),
    ("cross rail lacks", lambda a: without(a, "rails", 7), "rail-fill"),
    ("cross rail short", lambda a: changed(a, "rails", 7, length=inch(17)), "rail-length"),
    ("side rail lacks", lambda a: without(a, "rails", 4), "rail-fill"),
    ("side post dropped", lambda a: without(a, "posts", 2), "rail-fill"),
]  # fmt: skip


@pytest.mark.parametrize(("tamper", "code"), [case[1:] for case in STRAIGHT], ids=[case[0] for case in STRAIGHT])
def test_straight_run_tampered_with(tamper: Tamper, code: str) -> None:
    """Each kind of tampering with a straight run."""
    assert code in codes(project(), tamper(straight()))


@pytest.mark.parametrize(("tamper", "code"), [case[1:] for case in ELL], ids=[case[0] for case in ELL])
def test_l_tampered_with(tamper: Tamper, code: str) -> None:
    """Each kind of tampering that needs a corner."""
    assert code in codes(project(), tamper(ell(INSIDE, Side.RIGHT)))


def _wished(**new: object) -> Project:
    asked = project()
    return replace(asked, wish=replace(asked.wish, **new))  # type: ignore[arg-type]


def _framed(**new: object) -> Project:
    asked = project()
    return replace(asked, frame=replace(asked.frame, **new))  # type: ignore[arg-type]


def _roomed(**new: object) -> Project:
    asked = project()
    return replace(asked, room=replace(asked.room, **new))  # type: ignore[arg-type]


def _cushioned(**new: object) -> Project:
    asked = project()
    kind: Cushion = replace(asked.cushions[0], **new)  # type: ignore[arg-type]
    return replace(asked, cushions=(kind,))


def _bowl(x: str, y: str, radius: str = "5", clear: str = "0") -> Project:
    return _roomed(obstacles=(Obstacle("bowl", (Point(inch(x), inch(y)),), inch(radius), inch(clear)),))


def _door(offset: str, swing: Swing = Swing.IN) -> Project:
    """A door in the edge that the seats back onto, with nothing else in the room."""
    return _roomed(openings=(Opening("door", "AB", inch(offset), inch(30), swing),), routes=())


# The straight run stands from x = 18 1/2 to 94 1/4 and y = 1 1/2 to 29 1/4; its leg room reaches y = 47 1/4.
ASKED: list[tuple[str, Project, list[str]]] = [
    ("fewest seats", _wished(least=4), ["seats"]),
    ("most seats", _wished(most=2), ["seats"]),
    ("shape", _wished(shape=Shape.L), ["shape"]),
    ("ends", _wished(ends=EndKind.OPEN), ["ends"]),
    ("edges", _wished(against=("BC",)), ["against"]),
    ("off wall", _wished(off_wall=inch("23/16")), ["against"]),
    ("leg room", _wished(legroom=inch(20)), ["legroom"]),
    ("free", _wished(against=None), ["against"]),
    ("stock", _cushioned(own=2), ["stock"]),
    ("span", _framed(max_span=inch(46)), ["span"]),
    ("board", replace(project(), shop=replace(project().shop, longest_carried=inch(40))), ["board"]),
    ("clear distance", _bowl("60", "40", "2", "9"), ["too-close", "legroom"]),
    ("just clear of the run", _bowl("120", "20", "5", "41/2"), []),
    ("not quite clear of the run", _bowl("120", "20", "5", "329/16"), ["too-close"]),
    ("in the leg room", _bowl("60", "52"), ["legroom"]),
    ("out of the leg room", _bowl("60", "421/8"), []),
    ("swing", _door("90"), ["in-swing"]),
    ("swing out", _door("90", Swing.OUT), []),
    ("swing apart", _door("379/4"), []),
    ("swing on the tolerance", _door("757/8"), []),
    ("swing within the tolerance", _door("1511/16"), ["in-swing"]),
    ("tolerance", _roomed(tolerance=inch("7/4")), ["too-close"]),
]


@pytest.mark.parametrize(("asked", "found"), [case[1:] for case in ASKED], ids=[case[0] for case in ASKED])
def test_another_project_than_the_layout_was_made_for(asked: Project, found: list[str]) -> None:
    """A right layout is wrong for another project, by that code alone."""
    assert codes(asked, straight()) == found


def test_corner_facts_of_another_project() -> None:
    """Facts about the corner, each by itself."""
    layout = ell(INSIDE, Side.RIGHT)
    assert codes(_wished(corner=TABLE), layout) == ["corner"]
    assert codes(_cushioned(may_notch=False), layout) == ["notch"]
    assert codes(_framed(notch_clearance=inch("1/4")), layout) == ["notch"]
    assert codes(_cushioned(own=5), layout) == ["stock"]
    assert codes(_cushioned(own=5), ell(TABLE, Side.LEFT)) == []


def test_a_cushion_wider_than_deep_does_not_fit_the_corner() -> None:
    """A table asks no fit."""
    wide = _cushioned(width=inch(25))
    assert "corner-fit" in codes(wide, ell(OUTSIDE, Side.RIGHT))
    assert "corner-fit" not in codes(wide, ell(TABLE, Side.RIGHT))


def test_longer_short_run_owns_the_corner() -> None:
    """The main run is the longer one."""
    layout = ell(OUTSIDE, Side.RIGHT)
    cut = replace(layout, modules=layout.modules[:2] + layout.modules[4:])
    assert "corner-owner" in codes(project(), changed(cut, "runs", 0, count=1))


def test_route_past_the_seats() -> None:
    """Between the run's arm at 94 1/4 and a tub at 114 3/4 there are 20 1/2 in, less one tolerance."""
    corners = [("115", "0"), ("200", "0"), ("200", "80"), ("115", "80")]
    tub = Obstacle("tub", tuple(Point(inch(x), inch(y)) for x, y in corners))
    openings = (Opening("low", "AB", inch("185/2"), inch(40)), Opening("high", "CD", inch(40), inch(50)))
    asked = _roomed(obstacles=(tub,), openings=openings, routes=())
    route = replace(project().room.routes[0], start="low", end="high", width=inch(20))
    open_way = replace(asked, room=replace(asked.room, routes=(route,)))
    # The door in the backing edge begins behind the arm: the way is from the arm to the tub.
    width = route_widths(open_way, straight())[0]
    assert width.asked == inch(20)
    assert width.clear == inch("41/2")
    assert codes(open_way, straight()) == []
    narrow = replace(route, width=inch("83/4"))
    assert codes(replace(asked, room=replace(asked.room, routes=(narrow,))), straight()) == ["route-blocked"]


def test_findings_are_errors_with_a_place_and_a_value() -> None:
    """What the report needs."""
    finding = check_layout(_wished(least=4), straight())[0]
    assert finding.severity is Severity.ERROR
    assert finding.key == "wish.seats.least"
    assert finding.message == "3 seats, at least 4 are asked"


def test_odd_posts_lean_half_a_mark_to_either_side() -> None:
    """A post of 55 marks on a line stands 27 marks before it and 28 behind, or mirrored."""
    slim = inch("55/16")
    section = replace(project().frame.post, width=slim)
    layout, line = straight(), inch("177/4")
    low = line - Length(27 * 508)
    post = Box(low, inch("117/4") - slim, low + slim, inch("117/4"))
    found = check_layout(_framed(post=section), changed(layout, "posts", 0, box=post))
    assert not [f for f in found if f.code == "post" and "front" in f.message]
    aside = shifted(post, "1/16")
    found = check_layout(_framed(post=section), changed(layout, "posts", 0, box=aside))
    assert [f for f in found if f.code == "post" and "front" in f.message]
