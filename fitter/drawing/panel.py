"""What is written beside a plan: key of signs, cushions, setting out, tables of rails and routes."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from fitter.domain.corner_words import corner_name, foam_told
from fitter.domain.fixing import fixing_gaps
from fitter.domain.layout import Face, Layout, Side
from fitter.domain.notching import Turn, cut_cushions
from fitter.domain.owned import shed
from fitter.domain.project import Project
from fitter.domain.uncovered import beyond_gap
from fitter.domain.wishes import Shape
from fitter.drawing.block import LEADING, PAD, WIDTH, Block, Built, Heading
from fitter.drawing.corners import overhang
from fitter.drawing.metrics import wrap
from fitter.drawing.page import MEDIUM, SMALL, Role, moved
from fitter.drawing.seats import SIDE_LETTER, corner_tag, kind_letters
from fitter.drawing.signs import Sign, signs
from fitter.drawing.texts import stacked
from fitter.drawing.view import View
from fitter.drawing.ways import door_words, pairs
from rooms.lengths import Length

_TIED = "\N{NO-BREAK SPACE}"
_CLEAR = 48.0  # where the column of clear widths ends, mm


def heading(project: Project) -> Heading:
    """What every sheet of a project says of itself."""
    return Heading(project.title, project.file, project.unit, project.room.tolerance, project.note)


def seats_line(layout: Layout) -> str:
    """Seats, shape and corner treatment in one line."""
    shape = f"{layout.shape}, {layout.hand} hand" if layout.hand else str(layout.shape)
    seats = "1 seat" if layout.seats == 1 else f"{layout.seats} seats"
    return f"{seats}, {shape}" + (f", {layout.corner}" if layout.corner else "")


def blocks(project: Project, layout: Layout, view: View) -> tuple[Built, ...]:
    """All boxes but the title block, in the order in which they are placed."""
    makers: list[Callable[[Project, Layout], Built]] = [cushion_block, setting_block]
    if layout.rails:
        makers.append(rail_block)
    if project.room.routes:
        makers.append(route_block)
    return (key_block(project, layout, view), *(make(project, layout) for make in makers))


def key_block(project: Project, layout: Layout, view: View, more: Sequence[Sign] = ()) -> Built:
    """The box that explains the signs that occur; `more` of them first."""
    block = Block()
    block.write("Key", MEDIUM)
    for sign in (*more, *signs(project, layout, view)):
        sign_row(block, sign)
    return block.closed()


def sign_row(block: Block, sign: Sign) -> None:
    """A sample in a box, with what it stands for beside it."""
    middle = -(block.depth + 2.2)
    block.items.extend(moved(item, (PAD + 1.0, middle)) for item in sign.items)
    lines = wrap(sign.says, SMALL, WIDTH - 2 * PAD - 18.0)
    block.items.extend(stacked(lines, (PAD + 18.0, middle - SMALL / 2), role=Role.PANEL))
    block.depth += 5.4 + LEADING * (len(lines) - 1)


def cushion_block(project: Project, layout: Layout) -> Built:
    """The box that counts cushions and says what the letters of kinds and runs stand for."""
    block = Block()
    block.write("Cushions", MEDIUM)
    written = View(1, project.unit).written
    kinds = {cushion.name: cushion for cushion in project.cushions}
    letters = kind_letters(layout)
    for row in layout.purchases:
        letter = f"{letters[row.cushion]}  " if letters else ""
        block.write(f"{letter}{row.used} × {row.cushion}" + (f", {row.buy} to buy" if row.buy else ""))
        size = " × ".join(written(length, feet=False) for length in kinds[row.cushion].size)
        block.write(f"{size}{_turned(layout, row.cushion)}")
    for stayed in shed(project, layout):
        if stayed.over:
            block.told(f"left over: {stayed.over} of {stayed.cushion}")
    for run in layout.runs:
        count = f"{run.count} module{'s' if run.count > 1 else ''} of {written(run.pitch, feet=False)}"
        block.write(f"{SIDE_LETTER[run.side]}  {_run_name(layout, run.side)}: {count}")
    for line in _corner_lines(project, layout, written):
        block.write(line)
    for place, gap in _off_backs(project, layout):
        block.told(place, (WIDTH - PAD, written(gap, feet=False)))
    return block.closed()


def _turned(layout: Layout, cushion: str) -> str:
    """Whether the cushions of a kind lie with their depth along the run."""
    turned = [module.turned for module in layout.modules if module.cushion == cushion]
    return ", turned" if all(turned) else ", some turned" if any(turned) else ""


def _run_name(layout: Layout, side: Side) -> str:
    if side is Side.MAIN:
        return "main run"
    return f"{side} arm" if layout.shape is Shape.U else "short run"


def _corner_lines(project: Project, layout: Layout, written: Callable[..., str]) -> Iterator[str]:
    """What the corner places are, what is cut from their cushions, and what these leave bare but the gap behind."""

    def tell(length: Length) -> str:
        return str(written(length, feet=False))

    cuts = cut_cushions(layout, project.cushions)
    for module in layout.corners:
        sizes = [f"{tell(b.x1 - b.x0)} × {tell(b.y1 - b.y0)}" for b in beyond_gap(layout, module)]
        bare = [f"{' and '.join(sizes)} bare"] if sizes else []
        foam = [foam_told(cut, imperial=project.unit.imperial) for cut in cuts if cut.corner is module.corner]
        away = [f"{each} cut".replace(" ", _TIED).replace(f",{_TIED}", ", ") for each in foam]
        yield f"{corner_tag(layout, module)}  {', '.join([corner_name(layout, module.corner), *bare, *away])}"
    # Half a turn does for every zip that would be cut, so it is said once a kind of cushion.
    for where in dict.fromkeys(cut.cushion.zip for cut in cuts if cut.keeps):
        yield f"zip in the {where}: whole after {Turn.HALF} before the cut"


def _off_backs(project: Project, layout: Layout) -> Iterator[tuple[str, Length]]:
    """How far cushions come forward over the wood, and how far they lie off the backs."""
    if over := overhang(project):
        yield "cushions overhang the wood", over
    if layout.gap:
        yield "cushions off the backs", layout.gap


def setting_block(project: Project, layout: Layout) -> Built:
    """Where the furniture stands, in words: gaps that are too small to be dimensioned are told here."""
    block = Block()
    block.write("Setting out", MEDIUM)
    written = View(1, project.unit).written
    for place, gap in _standing(project, layout) if layout.pose.edge else _free(project, layout):
        block.told(place, (WIDTH - PAD, written(gap)))
    return block.closed()


def _standing(project: Project, layout: Layout) -> Iterator[tuple[str, Length]]:
    """Along a backing edge: how far off it, and how far from its corners."""
    edge = project.room.edge(layout.pose.edge or "")
    names = {point: name for name, point in project.room.corners}
    low, high = layout.reach
    yield f"back of the {_run_name(layout, layout.pose.aligned)} off edge{_TIED}{edge.name}", layout.off_edge
    for gap, corner in ((low, names[edge.start]), (edge.length - high, names[edge.end])):
        yield f"{'beyond' if gap.units < 0 else 'from'} corner {corner}", abs(gap)


def _free(project: Project, layout: Layout) -> Iterator[tuple[str, Length]]:
    """Free standing: how far three outer corners are from the nearest edges, as one faces the seats."""
    for gap in fixing_gaps(project.room, layout):
        yield f"{gap.corner} from edge{_TIED}{gap.edge}", gap.length


def rail_block(project: Project, layout: Layout) -> Built:
    """The table of rails; equal rails of one line share a row."""
    block = Block()
    block.write("Rails", MEDIUM)
    block.row([(PAD, 0.0, "run"), (15.0, 0.0, "face"), (29.0, 0.0, "bay"), (WIDTH - PAD, 1.0, "length")])
    block.rule()
    rows: dict[tuple[Side, Face, Length], list[int]] = {}
    for rail in layout.rails:
        rows.setdefault((rail.run, rail.face, rail.length), []).append(rail.bay)
    for (side, face, length), bays in rows.items():
        bay = "" if face is Face.CROSS else _numbers(bays)
        cells = [(PAD, 0.0, str(side)), (15.0, 0.0, str(face)), (29.0, 0.0, bay)]
        count = f"{len(bays)} × " if len(bays) > 1 else ""
        written = View(1, project.unit).written(length, feet=False)
        block.row([*cells, (WIDTH - PAD, 1.0, count + written)])
    return block.closed()


def _numbers(bays: Sequence[int]) -> str:
    if len(bays) > 2 and list(bays) == list(range(bays[0], bays[-1] + 1)):
        return f"{bays[0]} to {bays[-1]}"
    return ", ".join(map(str, bays))


def route_block(project: Project, layout: Layout) -> Built:
    """The table of routes with the width found and the one asked."""
    block = Block()
    block.write("Routes", MEDIUM)
    right = WIDTH - PAD
    block.row([(PAD, 0.0, "route"), (_CLEAR, 1.0, "clear"), (right, 1.0, "asked")])
    block.rule()
    view = View(1, project.unit)
    narrow = False
    for route, found in pairs(project.room, layout):
        clear = "–" if found.clear is None else view.written(found.clear, feet=False)
        block.told(route.name, (_CLEAR, clear), (right, view.written(found.asked, feet=False)))
        for line in door_words(project.room, route, found, view):
            narrow = True
            block.write(line)
    block.rule()
    where = "at the narrowest place between the doors" if narrow else "at the narrowest place"
    block.write(f"clear: {where}, less the tape tolerance")
    return block.closed()
