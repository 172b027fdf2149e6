"""Pages that show where boards are sawn, one strip for all that are sawn alike."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby

from fitter.domain.board_list import BoardList
from fitter.domain.cuts import CutOptions, PlannedBoard
from fitter.domain.project import Project
from fitter.domain.saw_list import Stop, sawing, stops
from fitter.drawing.arranging import Panel, arrange
from fitter.drawing.block import LEADING, PAD, WIDTH, Block, Built, Heading, title_block
from fitter.drawing.boards_signs import samples
from fitter.drawing.boards_strip import Strip, extent
from fitter.drawing.metrics import wrap
from fitter.drawing.page import MEDIUM, SMALL, Item, Page, Role, moved
from fitter.drawing.panel import heading
from fitter.drawing.plan import framed
from fitter.drawing.sheets import MARGIN, Scale, Sheet, scales, sheets
from fitter.drawing.texts import stacked
from fitter.drawing.view import View
from rooms.lengths import Length

_AIR = 6.0  # between a strip and the border, mm
_GAP = 2.0  # between strips, mm
_READABLE = 32  # denominator of the smallest scale that shows boards well
_HOW = (
    "First end to the left; set the blade beyond the line, of trim and waste before it. "
    "Boards are to scale along their length only."
)


def board_pages(project: Project, made: BoardList, sheet: str | None = None) -> list[Page]:
    """Draw where the boards of a project are sawn.

    Args:
        project: title, unit, and how long a piece can be carried.
        made: its boards.
        sheet: name of a paper that must be used; None to choose.

    Returns:
        Strips in the order of work, as many pages as they take; none without boards.

    Raises:
        ValueError: no such sheet, or a board is too long for it at the smallest usual scale.
    """
    return saw_pages(heading(project), made.boards, made.options, project.shop.longest_carried, sheet)


def saw_pages(
    head: Heading,
    boards: Sequence[PlannedBoard],
    options: CutOptions,
    handled: Length | None = None,
    sheet: str | None = None,
) -> list[Page]:
    """Draw where boards are sawn.

    The smallest sheet is taken that shows the longest board at a readable scale; where none does, the one with the
    largest scale.

    Args:
        head: for the title block.
        boards: in the order of work.
        options: how they are cut.
        handled: longest piece that can be carried; None for no limit.
        sheet: name of a paper that must be used; None to choose.

    Returns:
        As many pages as they take; none without boards.

    Raises:
        ValueError: no such sheet, or a board is too long for it at the smallest usual scale.
    """
    papers = [paper for paper in sheets(head.unit.imperial, sheet) if paper.landscape]
    best: _Book | None = None
    trouble = ""
    for paper in papers:
        book = _Book(head, tuple(boards), options, handled, paper)
        try:
            worst = book.worst
        except ValueError as error:
            trouble = str(error)
            continue
        if best is None or worst < best.worst:
            best = book
        if best.worst <= _READABLE:
            break
    if best is None:
        raise ValueError(trouble)
    return list(best.pages())


@dataclass(frozen=True)
class _Drawn:
    """Boards that are sawn alike, drawn once.

    Args:
        first: number of the first one.
        last: of the last one.
        section: theirs.
        scale: that they are drawn at.
        items: the strip.
    """

    first: int
    last: int
    section: str
    scale: Scale
    items: tuple[Item, ...]

    @property
    def height(self) -> float:
        """Of the strip, mm."""
        low, high = extent(self.items)
        return high - low


@dataclass(frozen=True)
class _Book:
    """Boards on sheets of one size; those of a section at the largest scale that shows all of them."""

    head: Heading
    boards: tuple[PlannedBoard, ...]
    options: CutOptions
    handled: Length | None
    paper: Sheet

    @property
    def worst(self) -> int:
        """Denominator of the smallest scale that is used."""
        return max((drawn.scale.denominator for drawn in self._strips), default=1)

    @cached_property
    def _strips(self) -> tuple[_Drawn, ...]:
        found: list[_Drawn] = []
        for _, group in groupby(enumerate(self.boards, 1), key=lambda pair: pair[1].section):
            found += self._section(list(group))
        return tuple(found)

    def _section(self, boards: Sequence[tuple[int, PlannedBoard]]) -> list[_Drawn]:
        """The strips of a section; ValueError if no usual scale is small enough."""
        trouble = "a board is too long for the sheet at every usual scale; name a larger sheet"
        room = self.paper.width - 2 * MARGIN - WIDTH - 2 * _AIR
        longest = max(board.length for _, board in boards)
        for scale in scales(self.head.unit.imperial):
            view = View(scale.denominator, self.head.unit)
            if view.of(longest) > room:
                continue
            try:
                return [self._drawn(list(alike), scale, room) for _, alike in groupby(boards, key=lambda pair: pair[1])]
            except ValueError as error:
                # At a smaller scale its cuts lie closer still.
                trouble = str(error)
                break
        raise ValueError(trouble)

    def _drawn(self, alike: Sequence[tuple[int, PlannedBoard]], scale: Scale, room: float) -> _Drawn:
        view = View(scale.denominator, self.head.unit)
        (first, board), last = alike[0], alike[-1][0]
        name = f"Board {first}" if first == last else f"Boards {first} to {last}"
        name += f" of {len(self.boards)}: {board.section}, {view.written(board.length)}"
        name += (f", {len(alike)} alike" if len(alike) > 1 else "") + (", on hand" if board.on_hand else "")
        strip = Strip(sawing(board, self.options, self.handled), name, self.options, view, room + _AIR - 1.0)
        return _Drawn(first, last, board.section, scale, strip.items())

    def pages(self) -> Iterator[Page]:
        """As many strips of one scale on each page as there is room for, from the top."""
        rest = list(self._strips)
        while rest:
            scale = rest[0].scale
            plan = self._panel(scale, "").plan
            low, high = plan[1] + _AIR / 3, plan[3] - _AIR / 3
            here: list[_Drawn] = []
            items: list[Item] = []
            while rest and rest[0].scale == scale and (not here or high - rest[0].height >= low):
                strip = rest.pop(0)
                items += [moved(item, (plan[0] + _AIR, high - extent(strip.items)[1])) for item in strip.items]
                high -= strip.height + _GAP
                here.append(strip)
            first, last = here[0].first, here[-1].last
            told = f"Boards {first} to {last}" if first != last else f"Board {first}"
            sections = list(dict.fromkeys(strip.section for strip in here))
            panel = self._panel(scale, f"{told} of {len(self.boards)}: where to saw", sections)
            yield framed(self.head.title, self.paper, scale, items, panel, (0.0, 0.0))

    def _panel(self, scale: Scale, says: str, sections: Sequence[str] = ()) -> Panel:
        """The title block, the key, and the stops of some sections where there is room for them."""
        frame = (MARGIN, MARGIN, self.paper.width - MARGIN, self.paper.height - MARGIN)
        title = title_block(self.head, scale, self.paper.name, [line for line in (says, _HOW) if line])
        bare = next(arrange(title, (_key(),), frame, self.paper.landscape), None)
        assert bare is not None, "two boxes must fit a lying sheet"
        settings = [stop for stop in stops(self.boards) if stop.section in sections]
        if not settings:
            return bare
        boxes = (_key(), stop_block(settings, View(scale.denominator, self.head.unit)))
        full = next(arrange(title, boxes, frame, self.paper.landscape), None)
        return full if full is not None and full.plan == bare.plan else bare


def stop_block(settings: Sequence[Stop], view: View) -> Built:
    """The box that tells each length that is cut more than once."""
    block = Block()
    block.write("Stop block", MEDIUM)
    section = ""
    for stop in settings:
        if stop.section != section:
            section = stop.section
            block.write(section)
        marks = ", ".join(stop.marks[:2]) + (", …" if len(stop.marks) > 2 else "")
        length = view.written(stop.length, feet=False)
        block.row([(PAD + 2.0, 0.0, length), (21.0, 0.0, marks), (WIDTH - PAD, 1.0, f"{stop.count} ×")])
    return block.closed()


def _key() -> Built:
    """The box that explains the signs."""
    block = Block()
    block.write("Key", MEDIUM)
    for items, says in samples():
        middle = -(block.depth + 2.2)
        block.items.extend(moved(item, (PAD + 1.0, middle)) for item in items)
        lines = wrap(says, SMALL, WIDTH - 2 * PAD - 18.0)
        block.items.extend(stacked(lines, (PAD + 18.0, middle - SMALL / 2), role=Role.PANEL))
        block.depth += 5.4 + LEADING * (len(lines) - 1)
    return block.closed()
