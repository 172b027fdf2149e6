"""Everything to buy: counted again from the frame, priced, boxed and added up."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from buyers import BOX, answer, box, frame_of, inch, nook

from fitter.domain.cuts import PlannedBoard
from fitter.domain.layout import Layout, Purchase
from fitter.domain.project import Project
from fitter.domain.takeoff import (
    NOTHING,
    Group,
    Item,
    Measure,
    Pack,
    Price,
    PriceList,
    Takeoff,
    exactly,
    item_key,
    pieces,
)
from fitter.domain.woodwork import EndCut, Fixing, PartRole, Woodwork
from fitter.frame import pockets as frame_pockets
from fitter.takeoff import takeoff
from fitter.takeoff.hardware import BORE
from fitter.takeoff.tools import capacities, slanted
from fitter.workflow.buying import buy, touching
from rooms.lengths import ZERO, Length

KEY = ("armed", "mitred", "screws", "")


def best() -> Layout:
    layout = answer().layout
    assert layout is not None
    return layout


def prices(**rows: str) -> PriceList:
    """A list of prices of pieces, `_` for a blank."""
    found = {item_key(name): Price(name.replace("_", " "), Fraction(price)) for name, price in rows.items()}
    return PriceList("prices.csv", found)


def taken(
    project: Project | None = None,
    frame: Woodwork | None = None,
    listed: PriceList | None = None,
    boards: tuple[PlannedBoard, ...] = (),
    layout: Layout | None = None,
) -> Takeoff:
    frame = frame or frame_of()
    return takeoff(project or nook(), layout or best(), frame, boards, touching(frame), listed)


def item(found: Takeoff, name: str) -> Item:
    (one,) = [each for each in found.items if each.name == name]
    return one


def test_fasteners_are_those_of_the_joints() -> None:
    """Each kind, size and length as often as joints hold it."""
    frame = frame_of()
    held = Counter(
        f'{each.kind} {each.size} x {words(each.length)}"' for joint in frame.joints for each in joint.fasteners
    )
    found = [each for each in taken().of(Group.FASTENERS) if each.name.split()[0] not in ("nut", "washer")]
    assert {each.name: each.needed for each in found} == {name: exactly(count) for name, count in held.items()}
    assert sum(each.needed.most for each in found) == sum(len(joint.fasteners) for joint in frame.joints)


def words(length: Length) -> str:
    whole, part = divmod(length.inch, 1)
    return " ".join(str(each) for each in (whole, part) if each)


def test_every_bolt_has_a_nut_and_a_washer() -> None:
    bolts = Counter(each.size for joint in frame_of().joints for each in joint.fasteners if each.kind is Fixing.BOLT)
    assert bolts
    for size, count in bolts.items():
        for name in (f"nut {size}", f"washer {size}"):
            assert item(taken(), name).needed == exactly(count)


def test_spare_bolts_have_nuts_and_washers_too() -> None:
    """12 and 6 bolts of two lengths come with 2 and 1 spare, 21 in all; with a tenth of 18 there would be 20 nuts."""
    frame = frame_of()
    bolt = next(each for joint in frame.joints for each in joint.fasteners if each.kind is Fixing.BOLT)
    short, long = replace(bolt, length=inch("7/2")), replace(bolt, length=inch("11/2"))
    joint = replace(frame.joints[0], fasteners=(short,) * 12 + (long,) * 6)
    found = taken(frame=replace(frame, joints=(joint,)))
    bought = {each.name: each.packs for each in found.of(Group.FASTENERS)}
    assert bought == {
        f'carriage bolt {bolt.size} x 3 1/2"': (14, 14),
        f'carriage bolt {bolt.size} x 5 1/2"': (7, 7),
        f"washer {bolt.size}": (21, 21),
        f"nut {bolt.size}": (21, 21),
    }


@pytest.mark.parametrize(
    ("count", "spare", "box", "bought"), [(91, 10, 100, 2), (90, 9, 100, 1), (1, 1, 1, 2), (100, 10, 10, 11)]
)
def test_spare_and_boxes(count: int, spare: int, box: int, bought: int) -> None:
    """91 and a tenth of it, 9.1 rounded up to 10, are 101: two boxes of 100; 90 and 9 are 99: one."""
    assert -(-count // 10) == spare
    one = Item(Group.FASTENERS, "screw", exactly(count), pack=pieces(box), spare=spare, price=Fraction(7))
    assert one.packs == (bought, bought)
    assert one.cost == exactly(7 * bought)


def test_file_says_spare_and_boxes() -> None:
    project = nook(shop="  spare: 25 %\n  boxes: {screws: 50, bolts: 4}")
    found = taken(project).of(Group.FASTENERS)
    bolts = sum(each.spare for each in found if "bolt" in each.name)
    for each in found:
        assert each.spare == (bolts if each.name.split()[0] in ("nut", "washer") else -(-each.needed.most // 4))
        assert each.pack is not None
        assert each.pack.amount == (50 if "screw" in each.name else 4)


def test_price_list_says_what_a_box_holds() -> None:
    name = next(each.name for each in taken().of(Group.FASTENERS))
    row = Price(name, Fraction(9), pieces(25))
    one = item(taken(listed=PriceList("p.csv", {item_key(name): row})), name)
    count = one.needed.most + one.spare
    assert one.packs == (-(-count // 25), -(-count // 25))
    assert one.cost == exactly(9 * -(-count // 25))


def test_unknown_prices_are_not_zero() -> None:
    found = taken(listed=prices(safety_glasses="8", ear_muffs="15.50"))
    (gear,) = [total for total in found.totals if total.group is Group.GEAR]
    whole = found.totals[-1]
    assert gear.cost == exactly(Fraction("23.5"))
    assert gear.unknown == len(found.of(Group.GEAR)) - 2
    lacking = [each for each in found.items if each.chosen and each.price is None and each.packs != (0, 0)]
    assert whole.unknown == len(lacking)
    assert item(found, "nitrile gloves").cost is None


def test_totals_added_again() -> None:
    rows = {each.name.replace(" ", "_"): str(k + 1) for k, each in enumerate(taken().items) if each.pack}
    found = taken(listed=prices(**rows))
    counted = [each for each in found.items if each.chosen and each.cost is not None]
    assert len(counted) > 20
    for bound in ("least", "most"):
        whole = sum(getattr(each.cost, bound) for each in counted)
        assert getattr(found.totals[-1].cost, bound) == whole
        assert sum(getattr(total.cost, bound) for total in found.totals[:-1]) == whole
    shares = [total.share for total in found.totals[:-1]]
    assert sum(share for share in shares if share is not None) == 1
    assert [total.group for total in found.totals[:-1]] == [group for group in Group if found.of(group)]


def test_nothing_priced_has_no_share() -> None:
    project = replace(nook(), cushions=tuple(replace(each, price=None) for each in nook().cushions))
    found = taken(project)
    assert found.totals[-1].cost == NOTHING
    assert {total.share for total in found.totals} == {None}


def test_cushions_missing_are_bought() -> None:
    (row,) = best().purchases
    one = item(taken(), "cushion seat")
    assert row.buy == row.used - 1
    assert (one.needed, one.cost) == (exactly(row.buy), exactly(40 * row.buy))
    at_home = replace(best(), purchases=(Purchase("seat", row.used, 0),))
    assert not taken(layout=at_home).of(Group.CUSHIONS)


def test_boards_are_grouped_and_those_on_hand_not_bought() -> None:
    board = PlannedBoard("2x4", inch(96), 450, (), ZERO)
    others = (replace(board, length=inch(144), price=None), replace(board, on_hand=True, price=None))
    found = taken(boards=(board, board, *others))
    assert item(found, "board 2x4 8'").cost == exactly(9)
    assert item(found, "board 2x4 12'").cost is None
    assert not [each for each in found.items if each.name == "boards of 2x4"]


def test_sections_without_a_plan_stay_visible() -> None:
    found = taken(frame=box())
    one = item(found, "boards of 1x4")
    assert (one.measure, one.needed, one.packs, one.cost) == (Measure.LENGTH, exactly(inch(120).units), None, None)
    assert "no board of it is named" in one.says
    (boards,) = [total for total in found.totals if total.group is Group.BOARDS]
    assert (boards.cost, boards.unknown) == (NOTHING, 1)
    assert BOX.name == "1x4"


PLUG = 'pocket plug 3/8"'


@pytest.mark.parametrize(
    ("feet", "plug", "sealant", "chosen"),
    [
        (False, "3", None, PLUG),
        (False, None, "6", "sealant for pockets"),
        (False, None, None, PLUG),
        (True, "3000", "6", "sealant for pockets"),
        (True, "0.01", "600", PLUG),
    ],
)
def test_plugs_or_sealant_the_cheaper_one_counts(
    feet: bool, plug: str | None, sealant: str | None, chosen: str
) -> None:
    """Both are told; without a price for either, plugs."""
    frame = frame_of()
    count = sum(each.kind is Fixing.POCKET_SCREW for joint in frame.joints for each in joint.fasteners)
    if not feet:
        frame = replace(frame, joints=tuple(joint for joint in frame.joints if "sealant" not in joint.says))
    rows = [Price(PLUG, Fraction(plug))] if plug else []
    # In tubes so small that nothing of note is left over.
    tube = Pack(Fraction(2), Measure.VOLUME, "2 ml")
    rows += [Price("sealant", Fraction(sealant), tube)] if sealant else []
    found = taken(frame=frame, listed=PriceList("p.csv", {item_key(row.item): row for row in rows}))
    first, second = (each for each in found.items if each.choice)
    assert (first.name, first.chosen, second.chosen) == (chosen, True, False)
    assert {first.name, second.name} == {PLUG, "sealant for pockets"}
    assert item(found, PLUG).needed == exactly(count) == exactly(found.pockets)


def test_what_is_left_over_of_the_sealant_for_feet_is_used_first() -> None:
    one = item(taken(), "sealant for pockets")
    feet = item(taken(), "sealant")
    assert feet.packs is not None
    assert feet.pack is not None
    used = zip(feet.packs, (feet.needed.least, feet.needed.most), strict=True)
    assert one.left == min(packs * feet.pack.amount - amount for packs, amount in used) > 0
    assert (one.packs, one.chosen, one.cost) == ((0, 0), True, NOTHING)


def test_left_over_sealant_costs_nothing() -> None:
    pack = Pack(Fraction(300), Measure.VOLUME, "300 ml")
    one = Item(Group.GLUE, "sealant", exactly(120), Measure.VOLUME, pack, left=Fraction(100))
    assert one.packs == (1, 1)
    assert replace(one, left=Fraction(120)).cost == NOTHING


def test_a_pocket_holds_a_cylinder_from_the_face_to_its_head() -> None:
    """In 1 1/2 in stock the screw leaves at 3/4 in and its web is 1 1/2 in long: (3/4 / sin 15° - 1 1/2) π / 4 · 9/64.

    That is 0.154 cubic inches, 2.53 ml, for each pocket in such stock; 14.99° and thinner stock leave 3 per cent.
    """
    screws = [each for joint in frame_of().joints for each in joint.fasteners if each.kind is Fixing.POCKET_SCREW]
    assert {frame_of().parts[each.through].thickness for each in screws} == {inch("3/2")}
    filled = item(taken(), "sealant for pockets").needed.most
    assert float(filled / len(screws)) == pytest.approx(2.53, rel=0.03)


def test_the_bore_is_that_of_the_frame() -> None:
    assert frame_pockets.BORE == BORE


def test_glue_for_mitres_sealant_for_feet() -> None:
    frame = frame_of()
    feet = sum(part.role is PartRole.FOOT for part in frame.parts)
    glued = sum(joint.glued for joint in frame.joints)
    assert f"{glued - feet} joints" in item(taken(), "glue").says
    assert f"{feet} feet" in item(taken(), "sealant").says


def test_coats_that_are_not_wanted_are_not_bought() -> None:
    project = nook(shop="  coats: {conditioner: 0, stain: 0, varnish: 1}")
    names = {each.name for each in taken(project).items}
    assert names.isdisjoint({"conditioner", "stain", "sandpaper 220 grit", "rag without lint"})
    assert "varnish" in names
    bare = taken(nook(shop="  coats: {conditioner: 0, stain: 0, varnish: 0}"))
    assert not bare.findings
    assert "nitrile gloves" not in {each.name for each in bare.items}


def test_rough_wood_takes_twice_the_stain() -> None:
    smooth, rough = (item(taken(nook(shop=f"  surface: {word}")), "stain").needed for word in ("smooth", "rough"))
    assert (rough.least, rough.most) == (2 * smooth.least, 2 * smooth.most)


def test_oily_rags_are_cautioned_of() -> None:
    (told,) = [finding for finding in taken().findings if finding.code == "oily-rags"]
    assert "Wood Handbook" in told.source
    assert "NFPA" in told.source
    assert "water" in told.help


def test_prices_that_fit_nothing_are_told() -> None:
    rows = {'screw #8 x 9"': "1", "board 2x4 8'": "1", "cushion seat": "2"}
    found = taken(listed=prices(safty_glasses="8", garden_gnome="12", **rows))
    told = [finding for finding in found.findings if finding.code == "price-unused"]
    assert [finding.help for finding in told] == ["did you mean `safety glasses`, which has no price?", ""]
    assert told[1].message == "2 rows of prices.csv price nothing here"


def test_a_mitre_asks_for_a_longer_cut() -> None:
    """45° across 3 1/2 in: 3 1/2 √2 = 4.94975 in."""
    part = next(part for part in frame_of().parts if part.role is PartRole.ARM_PIECE)
    long = slanted(part, EndCut(inch("7/2")))
    assert float(long.inch) == pytest.approx(4.94975, abs=2e-4)
    (tool,) = [tool for tool in taken().tools if tool.name == "saw, turned"]
    assert tool.needs == '3 1/2" deep, 5" along the cut'
    assert "tilted" in tool.says


def test_capacities_are_those_that_no_other_part_asks_more_of() -> None:
    parts = frame_of().parts
    found = capacities(parts)
    assert found[0][0] == max(part.thickness for part in parts)
    assert all(one[0] > other[0] and one[1] < other[1] for one, other in pairwise(found))
    for part in parts:
        assert any(part.thickness <= thick and part.width <= wide for thick, wide in found)


def test_tools_follow_the_joints() -> None:
    kinds = {each.kind for joint in frame_of().joints for each in joint.fasteners}
    names = {tool.name for tool in taken().tools}
    assert {Fixing.POCKET_SCREW, Fixing.BOLT} <= kinds
    assert {"pocket-hole guide", "wrench", "bar clamps, 4"} <= names
    assert "hammer" not in names
    assert "chisel and mallet, or router" not in names
    bare = {tool.name for tool in taken(frame=box()).tools}
    assert "drill and driver" not in bare
    housed = ("armed", "posts", "housing", "")
    let_in = taken(nook(*housed), frame_of(housed))
    assert [tool.needs for tool in let_in.tools if tool.name.startswith("chisel")] == ['1/2" deep']


def test_boards_without_a_price_take_that_of_the_list() -> None:
    """Boards are planned with it, and what the file says comes first."""
    shop = nook().shop
    boards = tuple(replace(board, price=None if board.section == "2x4" else board.price) for board in shop.boards)
    project = replace(nook(), shop=replace(shop, boards=boards))
    rows = {"board_2x4_8'": "6.25", "board_2x8_12'": "1", "cushion_seat": "1"}
    found = buy(project, answer(), prices=prices(**rows)).takeoff
    assert found is not None
    assert item(found, "board 2x4 8'").price == Fraction("6.25")
    assert item(found, "board 2x8 12'").price == Fraction("21.90")
    assert item(found, "cushion seat").price == 40
    assert [board.name for board in found.of(Group.BOARDS) if board.name.startswith("boards of")]


def test_no_layout_nothing_to_buy() -> None:
    assert buy(nook(), answer(), 7).takeoff is None
