"""What holds of every page: no text hides another, all is on the sheet, all is true to scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from math import dist

import pytest
from hand_built import Chain, lay_out
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from page_laws import check_lines, check_on_sheet, check_page, check_scale, check_texts
from sample_layouts import INCHES, METRIC, corner, pose_on, project_of, room_of, row, samples
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import substring, unary_union

from fitter.domain.cushions import Option
from fitter.domain.layout import Box, Layout
from fitter.domain.project import Project
from fitter.domain.wishes import CornerKind, Shape
from fitter.drawing import Page, plan_page
from fitter.drawing.page import Area, Dash, Line, Pen, Role
from fitter.drawing.sheets import ARCHITECTURAL
from fitter.drawing.sheets import METRIC as METRIC_SCALES
from fitter.drawing.texts import readable
from rooms.lengths import UNITS_PER_MM, Length, Unit, format_length
from rooms.room import EdgeKind, Height, Obstacle, Opening
from rooms.room import Point as Point2

SAMPLES = samples()
PAGES = {name: plan_page(*sample, verdict="proven") for name, sample in SAMPLES.items()}
NAMES = tuple(SAMPLES)


def ring(page: Page, layout: Layout, box: Box) -> Polygon:
    """A box of the layout on the page."""
    scale = UNITS_PER_MM * page.denominator
    x, y = page.origin
    return Polygon([(x + float(a) / scale, y + float(b) / scale) for a, b in layout.pose.outline(box)])


def on_page(page: Page, point: Point2) -> tuple[float, float]:
    """A point of the room on the page."""
    scale = UNITS_PER_MM * page.denominator
    return page.origin[0] + point.x.units / scale, page.origin[1] + point.y.units / scale


def same(some: Sequence[tuple[float, ...]], others: Sequence[tuple[float, ...]]) -> bool:
    """Whether both are the same points, in whichever order."""
    return all(dist(a, b) < 0.01 for a, b in zip(sorted(some), sorted(others), strict=True))


def ft(feet: int) -> Length:
    """A length in feet."""
    return Length.inches(12 * feet)


def written(length: Length, project: Project, *, feet: bool = True) -> str:
    """A length as a dimension shows it."""
    return format_length(length, project.unit, feet=feet).removesuffix(" mm")


@pytest.mark.parametrize("name", NAMES)
def test_no_text_overlaps_a_text_or_a_line_end(name: str) -> None:
    """The rule that a reader notices first."""
    check_texts(PAGES[name])


@pytest.mark.parametrize("name", NAMES)
def test_everything_keeps_the_margin(name: str) -> None:
    """Printers leave a border blank."""
    check_on_sheet(PAGES[name])


@pytest.mark.parametrize("name", NAMES)
def test_dimensions_are_true_to_scale(name: str) -> None:
    """A print at full size can be measured."""
    check_scale(PAGES[name])


@pytest.mark.parametrize("name", NAMES)
def test_outline_is_true_to_scale(name: str) -> None:
    """The drawn edges together are as long as the room's edges less their openings."""
    project, page = SAMPLES[name][0], PAGES[name]
    for edge in project.room.edges:
        start, end = (
            (page.origin[0] + p.x.units / UNITS_PER_MM / page.denominator,
             page.origin[1] + p.y.units / UNITS_PER_MM / page.denominator)
            for p in (edge.start, edge.end)
        )  # fmt: skip
        on_edge = LineString([start, end]).buffer(1e-3)
        drawn = sum(
            dist(*item.spots)
            for item in page.having(Role.EDGE)
            if isinstance(item, Line) and on_edge.contains(LineString(item.spots))
        )
        gaps = sum(float(opening.width.mm) for opening in project.room.openings if opening.edge == edge.name)
        assert drawn * page.denominator == pytest.approx(float(edge.length.mm) - gaps, abs=0.05)


@pytest.mark.parametrize("name", NAMES)
def test_each_edge_has_its_length_and_each_corner_its_name(name: str) -> None:
    """Written once as a dimension from corner to corner."""
    project, page = SAMPLES[name][0], PAGES[name]
    for edge in project.room.edges:
        spots = [
            (page.origin[0] + p.x.units / UNITS_PER_MM / page.denominator,
             page.origin[1] + p.y.units / UNITS_PER_MM / page.denominator)
            for p in (edge.start, edge.end)
        ]  # fmt: skip
        whole = [
            dimension
            for dimension in page.dimensions
            if all(dist(a, b) < 0.01 for a, b in zip(dimension.feet, spots, strict=True))
        ]
        assert [dimension.text.text for dimension in whole] == [written(edge.length, project)]
    names = [text.text for text in page.texts if text.role is Role.CORNER]
    assert sorted(names) == sorted(corner_name for corner_name, _ in project.room.corners)


@pytest.mark.parametrize("name", NAMES)
def test_each_run_has_its_chain(name: str) -> None:
    """Pitch by pitch or as a product between splits; the parts add up to the whole furniture."""
    (project, layout), page = SAMPLES[name], PAGES[name]
    texts = [dimension.text.text for dimension in page.dimensions]
    for run in layout.runs:
        pitch = written(run.pitch, project, feet=False)
        for low, high in pairwise(sorted({0, *layout.split_lines(run.side), run.count})):
            whole = written((high - low) * run.pitch, project, feet=False)
            assert f"{high - low} × {pitch} = {whole}" in texts or texts.count(pitch) >= high - low


@pytest.mark.parametrize("name", NAMES)
def test_every_module_post_and_rail_is_drawn(name: str) -> None:
    """Nothing of the layout is missing on the page."""
    layout, page = SAMPLES[name][1], PAGES[name]
    assert len(page.having(Role.POST)) == len(layout.posts)
    assert len(page.having(Role.RAIL)) == 2 * len(layout.rails)
    tags = [text.text for text in page.texts if text.role is Role.LABEL]
    letters = dict(zip([row.cushion for row in layout.purchases], "abc", strict=False))
    for module in layout.modules:
        arm = module.corner.value[0].upper() if module.corner and layout.shape is Shape.U else ""
        name = f"C{arm}" if module.corner else f"{module.run.value[0].upper()}{module.place}"
        kind = f" {letters[module.cushion]}" if module.cushion and len(letters) > 1 else ""
        assert f"{name}{kind}" in tags or f"{name} table" in tags


@pytest.mark.parametrize("name", NAMES)
def test_each_split_is_drawn_between_its_posts(name: str) -> None:
    """Across back panel and deck, along the seam of the two posts; the key tells of it where there is one."""
    layout, page = SAMPLES[name][1], PAGES[name]
    lines = [LineString(item.spots) for item in page.having(Role.SPLIT) if isinstance(item, Line)]
    posts = [Polygon(item.ring) for item in page.having(Role.POST) if isinstance(item, Area)]
    assert len(lines) == len(layout.splits)
    for line in lines:
        # Two behind, and two in front: one of them may be that of the inner corner.
        assert sum(post.distance(line) < 1e-6 for post in posts) == 4
        assert not any(line.crosses(post.buffer(-1e-6)) for post in posts)
    panel = [text.text for text in page.texts if text.role is Role.PANEL]
    assert ("comes apart here" in panel) == bool(layout.splits)


@pytest.mark.parametrize("name", NAMES)
def test_everything_in_the_room_is_named(name: str) -> None:
    """However crowded the page: a thing without its name is a riddle."""
    room, page = SAMPLES[name][0].room, PAGES[name]
    texts = [text.text for text in page.texts if text.role is Role.LABEL]
    for thing in (*room.obstacles, *room.openings, *room.routes):
        assert thing.name in texts


def test_names_stay_off_hatching_and_furniture_texts_off_walls() -> None:
    """No name of an opening lies on an obstacle, and no dimension on a cushion."""
    for name, (project, layout) in SAMPLES.items():
        page = PAGES[name]
        openings = {opening.name for opening in project.room.openings}
        bodies = [Polygon(item.ring) for item in page.having(Role.OBSTACLE) if isinstance(item, Area)]
        places = [Polygon(item.ring) for item in page.having(Role.CUSHION) if isinstance(item, Area)]
        assert len(places) >= len(layout.modules)
        for text in page.texts:
            box = Polygon(text.box)
            if text.text in openings:
                assert not any(body.intersects(box) for body in bodies), text.text
        for dimension in page.dimensions:
            box = Polygon(dimension.text.box)
            assert not any(place.intersects(box) for place in places), dimension.text.text


@pytest.mark.parametrize("name", NAMES)
def test_leaders_end_in_a_dot_on_what_they_name(name: str) -> None:
    """A line alone is lost among the strokes of a hatching."""
    leaders = PAGES[name].having(Role.LEADER)
    ends = [item.spots[0] for item in leaders if isinstance(item, Line)]
    dots = [Polygon(item.ring) for item in leaders if isinstance(item, Area) and item.grey == 0.0]
    assert len(ends) == len(dots)
    assert all(any(dot.centroid.distance(Point(end)) < 1e-6 for dot in dots) for end in ends)


def test_leaders_do_not_run_along_the_hatching_that_they_name() -> None:
    """A pillar is hatched at 45 degrees: its leader leaves it at another angle."""
    project, layout = SAMPLES["long-run-metric"]
    for x in (1000, 4500, 7900):
        place = Point2(Length.millimetres(x), Length.millimetres(1700))
        room = replace(
            project.room, obstacles=(Obstacle("pillar", (place,), Length.millimetres(150), Length.millimetres(20)),)
        )
        page = plan_page(replace(project, room=room), layout)
        scale = UNITS_PER_MM * page.denominator
        at = Point(page.origin[0] + place.x.units / scale, page.origin[1] + place.y.units / scale)
        leaders = [item for item in page.having(Role.LEADER) if isinstance(item, Line)]
        (leader,) = (line for line in leaders if at.distance(Point(line.spots[0])) < 1.0)
        (x0, y0), (x1, y1) = leader.spots[:2]
        assert abs((x1 - x0) - (y1 - y0)) > 0.2 * dist((x0, y0), (x1, y1))


@pytest.mark.parametrize("name", NAMES)
def test_names_of_routes_stand_on_the_floor(name: str) -> None:
    """Within the room and off the seats, where no leader has to cross a chain of dimensions."""
    (project, layout), page = SAMPLES[name], PAGES[name]
    inside = Polygon([on_page(page, point) for point in project.room.outline])
    seats = unary_union([ring(page, layout, box) for box in layout.footprint])
    for route in project.room.routes:
        (box,) = (Polygon(text.box) for text in page.texts if text.text == route.name and text.role is Role.LABEL)
        assert inside.contains(box)
        assert not seats.intersects(box)


def check_details_inside(page: Page, project: Project) -> int:
    """No length of the furniture stands outside the whole length of the edge behind it; how many there are."""
    checked = 0
    for edge in project.room.edges:
        a, b = (on_page(page, point) for point in (edge.start, edge.end))
        face, outward = LineString([a, b]), LineString([a, b]).buffer(-45.0, single_sided=True)
        (whole,) = (d for d in page.dimensions if same(d.feet, (a, b)))
        for d in page.dimensions:
            line = LineString(d.ends)
            level = abs((d.ends[1][0] - d.ends[0][0]) * (b[1] - a[1]) - (d.ends[1][1] - d.ends[0][1]) * (b[0] - a[0]))
            behind = all(face.distance(Point(foot)) > 0.05 for foot in d.feet) and d.feet != d.ends
            if behind and level < 1e-3 * face.length * line.length and outward.contains(line.centroid):
                checked += 1
                assert line.distance(face) < LineString(whole.ends).distance(face) - 5.0, d.text.text
    return checked


@pytest.mark.parametrize("name", NAMES)
def test_lengths_of_the_furniture_are_nearer_to_the_wall_than_those_of_the_wall(name: str) -> None:
    """Details first, the overall length outside them."""
    seen = check_details_inside(PAGES[name], SAMPLES[name][0])
    assert seen or SAMPLES[name][1].pose.edge is None


def test_a_chain_that_finds_no_place_beside_a_corner_stays_inside_the_others() -> None:
    """At this scale the name of corner A stands in the way of the first row."""
    corners = [("0", "0"), ("13'", "0"), ("13'", "9'"), ("0", "9'")]
    room = room_of(INCHES.unit, corners)
    project = project_of(INCHES, room)
    sizes = (INCHES.of("4"), INCHES.of("4"))
    layout = corner(INCHES, pose_on(room.edge("AB")), (3, 2), *sizes, CornerKind.OUTSIDE_POST)
    page = plan_page(project, layout)
    check_page(page)
    assert check_details_inside(page, project) > 4


@pytest.mark.parametrize("name", NAMES)
def test_no_line_is_taken_for_another(name: str) -> None:
    """A dimension line keeps its distance from the extension lines of others."""
    check_lines(PAGES[name])


def test_no_line_is_taken_for_another_at_a_corner_that_juts_in() -> None:
    """The jamb beside corner D sends its extension lines along the dimension of the next edge."""
    project, layout = SAMPLES["concave-l-left-metric"]
    unit = project.unit.one.units
    for offset in range(200, 500, 50):
        opening = Opening("hatch", "DE", Length(offset * unit), Length(800 * unit))
        room = replace(project.room, openings=(*project.room.openings, opening))
        check_page(plan_page(replace(project, room=room), layout))


@pytest.mark.parametrize("name", NAMES)
def test_no_chain_crosses_a_face_of_the_room(name: str) -> None:
    """A dimension line lies outside the room or inside it; its end may touch a wall that leans over."""
    project, page = SAMPLES[name][0], PAGES[name]
    outline = Polygon([on_page(page, point) for point in project.room.outline]).exterior
    for dimension in page.dimensions:
        line = LineString(dimension.ends)
        if dimension.feet != dimension.ends and line.length > 2.5:
            core = substring(line, 1.25, line.length - 1.25)
            assert not core.intersects(outline), dimension.text.text


@pytest.mark.parametrize("name", NAMES)
def test_the_whole_edge_is_dimensioned_outside_its_openings(name: str) -> None:
    """The longer a dimension, the farther out."""
    project, page = SAMPLES[name][0], PAGES[name]
    for opening in project.room.openings:
        edge = project.room.edge(opening.edge)
        face = LineString([on_page(page, edge.start), on_page(page, edge.end)])
        jambs = [on_page(page, jamb) for jamb in project.room.jambs(opening)]
        (whole,) = (d for d in page.dimensions if same(d.feet, (face.coords[0], face.coords[-1])))
        (part,) = (d for d in page.dimensions if same(d.feet, jambs))
        assert LineString(whole.ends).distance(face) > LineString(part.ends).distance(face) + 5.0


def check_names_of_openings(page: Page, project: Project, layout: Layout) -> None:
    """Each opening's name stands by its sill or at the end of a leader from it, and not on the furniture."""
    furniture = unary_union([ring(page, layout, box) for box in layout.footprint])
    leaders = [LineString(item.spots) for item in page.having(Role.LEADER) if isinstance(item, Line)]
    for opening in project.room.openings:
        sill = LineString([on_page(page, jamb) for jamb in project.room.jambs(opening)])
        (box,) = (Polygon(text.box) for text in page.texts if text.text == opening.name and text.role is Role.LABEL)
        led = any(
            sill.distance(Point(leader.coords[0])) < 0.01 and box.distance(Point(leader.coords[-1])) < 3.0
            for leader in leaders
        )
        assert led or (box.distance(sill) <= 8.0 and not box.intersects(furniture)), opening.name


@pytest.mark.parametrize("name", NAMES)
def test_an_opening_is_named_where_it_is(name: str) -> None:
    """A name in the middle of the floor, or on a cushion, tells nothing of a door."""
    check_names_of_openings(PAGES[name], *SAMPLES[name])


def test_an_opening_behind_the_seats_is_named_outside() -> None:
    """No cushion is a door; where the name is wider than the opening, a leader points to it."""
    project, layout = SAMPLES["u-along-the-wall-inches"]
    for name, width in (("hatch", ft(3)), ("hatch to the cellar stairs", Length.inches(18))):
        opening = Opening(name, "AB", ft(5), width)
        room = replace(project.room, openings=(*project.room.openings, opening))
        changed = replace(project, room=room)
        page = plan_page(changed, layout)
        check_page(page)
        check_names_of_openings(page, changed, layout)


@pytest.mark.parametrize("name", NAMES)
def test_the_key_explains_uncovered_places_where_they_can_be_seen(name: str) -> None:
    """Strips too narrow for the scale are told in the list of cushions alone."""
    page = PAGES[name]
    assert bool(page.having(Role.BARE)) == ("place left uncovered" in [text.text for text in page.texts])


def test_low_things_are_dashed_over_the_seats_and_holes_look_like_the_outline() -> None:
    """What is passed over is drawn after what passes over it."""
    project, layout = SAMPLES["u-along-the-wall-inches"]
    page = PAGES["u-along-the-wall-inches"]
    (low,) = page.having(Role.LOW)
    assert isinstance(low, Area)
    assert low.dash is Dash.HIDDEN
    assert low.grey is None
    assert page.items.index(low) > max(page.items.index(item) for item in page.having(Role.CUSHION))
    outline = Polygon(low.ring)
    strokes = [item for item in page.having(Role.HATCH) if isinstance(item, Line)]
    own = [line for line in strokes if outline.buffer(1e-6).contains(LineString(line.spots))]
    assert own
    assert min(map(page.items.index, own)) > max(page.items.index(item) for item in page.having(Role.CUSHION))
    # Nor does the ground of a name wipe out a piece of it.
    assert not any(Polygon(text.box).intersects(outline.exterior) for text in page.texts)
    well = replace(project.room.obstacles[0], height=Height.FULL, hole=True, core=(Point2(ft(8), ft(8)),))
    room = replace(project.room, obstacles=(well,))
    (hole,) = plan_page(replace(project, room=room), layout).having(Role.HOLE)
    assert isinstance(hole, Area)
    assert hole.pen is Pen.HEAVY


def test_ground_that_stays_clear_ends_at_the_walls() -> None:
    """Nobody keeps the neighbour's garden clear."""
    project, page = SAMPLES["u-arm-along-the-wall-metric"][0], PAGES["u-arm-along-the-wall-metric"]
    x, y = page.origin
    scale = UNITS_PER_MM * page.denominator
    outline = Polygon([(x + p.x.units / scale, y + p.y.units / scale) for p in project.room.outline]).buffer(0.01)
    zones = [item for item in page.having(Role.CLEAR) if isinstance(item, Line)]
    assert zones
    assert all(outline.contains(LineString(zone.spots)) for zone in zones)


def test_uncovered_strips_are_hatched_within_their_place_and_written() -> None:
    """Both corner cushions of the mixed sample are smaller than their places."""
    (project, layout), page = SAMPLES["mixed-u-free-inches"], PAGES["mixed-u-free-inches"]
    strokes = [item for item in page.having(Role.BARE) if isinstance(item, Line)]
    bare = unary_union([ring(page, layout, strip) for module in layout.corners for strip in module.bare])
    assert strokes
    assert all(bare.buffer(0.01).contains(LineString(stroke.spots)) for stroke in strokes)
    words = " ".join(text.text for text in page.texts)
    for module in layout.corners:
        for strip in module.bare:
            sizes = (strip.x1 - strip.x0, strip.y1 - strip.y0)
            assert " × ".join(written(size, project, feet=False) for size in sizes) in words


def test_cushions_for_two_show_where_one_seat_ends() -> None:
    """One line for each further seat, through the middle of the cushion and across its width."""
    (_, layout), page = SAMPLES["mixed-u-free-inches"], PAGES["mixed-u-free-inches"]
    lines = [item for item in page.having(Role.SEAT) if isinstance(item, Line)]
    double = [module for module in layout.modules if module.seats == 2]
    assert len(lines) == len(double) > 0
    for line, module in zip(lines, double, strict=True):
        assert ring(page, layout, module.box).centroid.distance(LineString(line.spots)) < 1e-6


def test_texts_along_leaning_walls_read_from_the_right() -> None:
    """A taped upright wall is never quite upright; its lengths are not turned over for that."""
    for direction in ((0.01, -1.0), (-0.01, -1.0), (0.0, 1.0), (0.02, 1.0), (-0.02, 1.0)):
        assert 85 < readable(direction) < 95
    assert readable((-1.0, 0.1)) == pytest.approx(-5.7, abs=0.1)


def test_chain_parts_add_up_to_the_whole() -> None:
    """Parts of the position chain sum to the backing edge, in whole units."""
    project, layout = SAMPLES["skew-straight-metric"]
    page = PAGES["skew-straight-metric"]
    edge = project.room.edge(layout.pose.edge or "")
    low = min(end.box.x0 for end in layout.ends)
    high = max(end.box.x1 for end in layout.ends)
    lengths = [dimension.length for dimension in page.dimensions]
    for part in (low, high - low, edge.length - high):
        assert part in lengths
    assert low + (high - low) + (edge.length - high) == edge.length


@pytest.mark.parametrize("name", NAMES)
def test_scale_is_a_standard_one_and_is_written(name: str) -> None:
    """ISO 5455 for metric projects, inches to the foot for the others."""
    project, page = SAMPLES[name][0], PAGES[name]
    known = ARCHITECTURAL if project.unit.imperial else METRIC_SCALES
    assert page.scale in [scale.written for scale in known if scale.denominator == page.denominator]
    words = " ".join(text.text for text in page.texts if text.role is Role.PANEL)
    assert page.scale.split("  ")[0] in words
    assert page.sheet in words
    assert ("Letter" in page.sheet or "Tabloid" in page.sheet) == project.unit.imperial


@pytest.mark.parametrize("name", NAMES)
def test_title_block_says_what_it_must(name: str) -> None:
    """Title, file, seats, verdict, the note and the caution."""
    (project, layout), page = SAMPLES[name], PAGES[name]
    words = " ".join(text.text for text in page.texts if text.role is Role.PANEL)
    assert project.title in words
    assert project.note in words
    assert project.file in words
    assert f"{layout.seats} seats" in words
    assert "proven" in words
    assert "Check every length against the tape before sawing" in words


def test_edge_kinds_are_told_apart_in_the_key() -> None:
    """A kind is explained only where it occurs."""
    project, layout = SAMPLES["rectangle-l-inches"]
    says = [text.text for text in PAGES["rectangle-l-inches"].texts]
    assert {"wall", "railing", "open edge", "step down"} <= set(says)
    walls = tuple(replace(edge, kind=EdgeKind.WALL) for edge in project.room.edges)
    plain = replace(project, room=replace(project.room, edges=walls))
    says = [text.text for text in plan_page(plain, layout).texts]
    assert "wall" in says
    assert "railing" not in says


def test_a_sheet_can_be_forced() -> None:
    """Even one of the other system; an unknown one is refused."""
    sample = SAMPLES["rectangle-l-inches"]
    assert plan_page(*sample, sheet="a3").sheet.startswith("A3")
    with pytest.raises(ValueError, match="`B7` is not a sheet; use one of A4, A3, Letter, Tabloid"):
        plan_page(*sample, sheet="B7")


def _random_sample(
    metric: bool, wide: int, deep: int, skew: int, counts: tuple[int, int, int], kind: CornerKind | None, low: bool
) -> tuple[Project, Layout]:
    """A skew room with a chain along its first edge: main run, right arm, left arm; over a low thing, if asked."""
    sizes = METRIC if metric else INCHES
    step = 100 if metric else 4
    reach = sizes.pitch * counts[0] + 2 * sizes.deck
    width = reach + Length(sizes.unit.one.units * wide * step)
    depth = 2 * sizes.deck + sizes.pitch * max(counts[1:]) + Length(sizes.unit.one.units * deep * step)
    w, d = (str(float(sizes.unit.of(length))) for length in (width, depth))
    slant = str(float(sizes.unit.of(width)) + skew * step)
    corners = [("0", "0"), (w, str(skew * step / 2)), (slant, d), (str(-skew * step), d)]
    drain = Obstacle("drain", (Point2(sizes.deck, sizes.deck),), 3 * sizes.rail, sizes.rail, height=Height.LOW)
    room = room_of(sizes.unit, corners, obstacles=(drain,) if low else ())
    x, y = (Length(sizes.back.units + marks * sizes.unit.mark.units) for marks in (20, 8))
    project = project_of(sizes, room)
    main, *arms = (row(Option(sizes.cushion), count, corner=True) for count in counts)
    right, left = (arm if count and kind else None for arm, count in zip(arms, counts[1:], strict=True))
    chain = Chain(x, y, main, right, left, kind if right or left else None)
    return project, lay_out(project, pose_on(room.edge("AB")), chain)


@settings(max_examples=12, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
@given(
    metric=st.booleans(),
    wide=st.integers(0, 30),
    deep=st.integers(1, 30),
    skew=st.integers(0, 6),
    counts=st.tuples(st.integers(1, 7), st.integers(0, 4), st.integers(0, 4)),
    kind=st.sampled_from([None, *CornerKind]),
    low=st.booleans(),
)
def test_laws_hold_for_random_rooms(
    metric: bool, wide: int, deep: int, skew: int, counts: tuple[int, int, int], kind: CornerKind | None, low: bool
) -> None:
    """Skew rooms with every shape and corner."""
    project, layout = _random_sample(metric, wide, deep, skew, counts, kind, low)
    page = plan_page(project, layout)
    check_page(page)
    assert not low or "drain" in [text.text for text in page.texts]


def test_unit_note_follows_the_project() -> None:
    """The unit stands once in a note; metric dimensions carry none."""
    for name, page in PAGES.items():
        metric = not SAMPLES[name][0].unit.imperial
        assert metric == (SAMPLES[name][0].unit is Unit.MM)
        assert all(("mm" in d.text.text) is False for d in page.dimensions)
        words = " ".join(text.text for text in page.texts)
        assert ("Lengths in millimetres" if metric else "Lengths in feet and inches") in words
