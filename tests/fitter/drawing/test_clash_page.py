"""The picture of what clashes: what is hatched, against shapely; the page keeps the laws of all pages."""

from __future__ import annotations

from impossible import EXAMPLES
from page_laws import check_page
from shapely.geometry import Polygon
from shapely.ops import unary_union

from fitter.domain.why import Change, Clash, Cure, Ease, Why
from fitter.drawing.clash_page import clash_page
from fitter.drawing.page import Area, Page, Role
from fitter.project import read_project
from fitter.workflow.cures.explaining import Explainer
from fitter.workflow.cures.written import with_changes
from fitter.workflow.fitting import fit
from fitter.workflow.why_picturing import picture
from rooms.lengths import UNITS_PER_MM, Length

LANDING = read_project(str(EXAMPLES / "landing.yaml"))
ATTIC = read_project(str(EXAMPLES / "attic-cushions.yaml"))
CLASH = ("edge:AB", "edge:BC", "edge:CD", "edge:DA", "least", "shape")


def hatched(page: Page) -> list[Polygon]:
    """What is hatched, in the room, mm."""
    x, y = page.origin
    areas = [item for item in page.having(Role.CLASH) if isinstance(item, Area)]
    return [Polygon([((a - x) * page.denominator, (b - y) * page.denominator) for a, b in area.ring]) for area in areas]


def test_a_bench_that_is_too_long_is_hatched_where_it_reaches_into_the_wall() -> None:
    clash = Explainer(LANDING).clash(CLASH)
    changes = (
        Change("room.corners.B", "[6' 2\", 0]", "[6' 4 1/4\", 0]"),
        Change("room.corners.C", "[6' 2\", 4' 10\"]", "[6' 4 1/4\", 4' 10\"]"),
    )
    longer = with_changes(LANDING, changes)
    assert longer is not None
    layout = fit(longer).layout
    assert layout is not None
    cure = Cure(("edge:BC",), Ease.EDGE, "move edge BC outward", changes, 36, layout)
    found = picture(LANDING, Why((clash,), (cure,)))
    assert found is not None
    page = clash_page(LANDING, *found)
    check_page(page)
    room = Polygon([(p.x.units / UNITS_PER_MM, p.y.units / UNITS_PER_MM) for p in LANDING.room.outline])
    stands = found[0].layout
    boxes = [stands.pose.outline(box) for box in stands.footprint]
    wood = unary_union(
        [Polygon([(float(x) / UNITS_PER_MM, float(y) / UNITS_PER_MM) for x, y in ring]) for ring in boxes]
    )
    tolerance = LANDING.room.tolerance.units / UNITS_PER_MM
    beyond = wood.difference(room.buffer(-tolerance, join_style="mitre"))
    assert abs(unary_union(hatched(page)).area - beyond.area) < 0.01 * beyond.area
    assert Length.inches("9/4") in [dimension.length for dimension in page.dimensions]
    assert '2 1/4" are missing' in [text.text for text in page.texts]


def test_cushions_that_are_not_there_are_hatched() -> None:
    clash = Explainer(ATTIC).clash(("stock:striped 22", "stock:loveseat 44", "least"))
    spared = Explainer(ATTIC).spared(clash)
    assert spared is not None
    cure = Cure(("stock:striped 22",), Ease.CUSHIONS, "get 2 more", (Change("cushions.0.own", "4", "6"),), 2, spared)
    found = picture(ATTIC, Why((clash,), (cure,)))
    assert found is not None
    shown, says = found
    names = [shown.layout.modules[n].cushion for n in shown.absent]
    assert names == ["striped 22", "striped 22"]
    assert shown.says == ("2 cushions missing",)
    assert says[1] == "The room is drawn as taped, the seats as they would stand with this change: get 2 more."
    page = clash_page(ATTIC, shown, says)
    check_page(page)
    # A module of 22 1/4 in along a deck of 24 1/4 in.
    module = 22.25 * 24.25 * 25.4**2
    assert all(abs(place.area - module) < 0.01 * module for place in hatched(page))


def test_without_a_cure_the_next_cushion_is_drawn_where_it_would_lie() -> None:
    explainer = Explainer(LANDING)
    clash = explainer.clash(CLASH)
    found = picture(LANDING, Why((clash,), spared=explainer.spared(clash)))
    assert found is not None
    shown, says = found
    assert shown.layout.seats < LANDING.wish.least
    assert len(shown.next) == 2
    assert shown.hatched(LANDING)
    assert says[1] == "Drawn without: 3 seats are wanted."


def test_nothing_is_drawn_where_no_layout_is_known() -> None:
    assert picture(LANDING, Why((Clash(()),))) is None
