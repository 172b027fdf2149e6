"""Pages that show where boards are sawn, one strip for all that are sawn alike."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from fitter.domain.board_list import BoardList
from fitter.domain.cuts import CutOptions, PlannedBoard
from fitter.domain.project import Project
from fitter.domain.saw_list import sawing
from fitter.drawing.arranging import Panel, arrange
from fitter.drawing.block import LEADING, PAD, WIDTH, Block, Built, Heading, title_block
from fitter.drawing.boards_strip import Strip, extent, samples
from fitter.drawing.metrics import wrap
from fitter.drawing.page import MEDIUM, SMALL, Item, Page, Role, moved
from fitter.drawing.panel import heading
from fitter.drawing.plan import framed
from fitter.drawing.sheets import MARGIN, Scale, Sheet, scales, sheets
from fitter.drawing.texts import stacked
from fitter.drawing.view import View
from rooms.lengths import Length

_AIR = 6.0  # between a strip and the border, mm
_GAP = 5.0  # between strips, mm
_READABLE = 25  # denominator of the smallest scale that shows boards well
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
    if not boards:
        return []
    best: _Book | None = None
    trouble = "a board is too long for the sheet at every usual scale; name a larger sheet"
    for paper in papers:
        for scale in scales(head.unit.imperial):
            if best is not None and scale.denominator >= best.scale.denominator:
                break
            book = _Book(head, tuple(boards), options, handled, paper, scale)
            try:
                fits = book.fits()
            except ValueError as error:
                trouble = str(error)
                continue
            if fits:
                best = book
                break
        if best is not None and best.scale.denominator <= _READABLE:
            break
    if best is None:
        raise ValueError(trouble)
    return list(best.pages())


@dataclass(frozen=True)
class _Book:
    """Strips at one scale on sheets of one size."""

    head: Heading
    boards: tuple[PlannedBoard, ...]
    options: CutOptions
    handled: Length | None
    paper: Sheet
    scale: Scale

    def fits(self) -> bool:
        """Whether the longest board does, with the numbers of its cuts."""
        longest = max(board.length for board in self.boards)
        if self._view.of(longest) > self._room:
            return False
        return len(self._strips()) > 0

    @property
    def _view(self) -> View:
        return View(self.scale.denominator, self.head.unit)

    @property
    def _room(self) -> float:
        """What is left for a board along the sheet, mm."""
        return self.paper.width - 2 * MARGIN - WIDTH - 2 * _AIR

    def _strips(self) -> list[tuple[str, tuple[Item, ...]]]:
        """Each strip with the numbers of its boards."""
        return [(numbers, strip.items()) for numbers, strip in self._drawn()]

    def _drawn(self) -> Iterator[tuple[str, Strip]]:
        written = self._view.written
        for board, group in groupby(enumerate(self.boards, 1), key=lambda pair: pair[1]):
            numbers = [number for number, _ in group]
            several = len(numbers) > 1
            told = f"{numbers[0]} to {numbers[-1]}" if several else str(numbers[0])
            name = f"Board{'s' if several else ''} {told} of {len(self.boards)}: {board.section}, "
            name += written(board.length) + (f", {len(numbers)} alike" if several else "")
            name += ", on hand" if board.on_hand else ""
            sawn = sawing(board, self.options, self.handled)
            yield told, Strip(sawn, name, self.options, self._view, self._room + _AIR - 1.0)

    def pages(self) -> Iterator[Page]:
        """As many strips on each page as there is room for, from the top."""
        rest = self._strips()
        while rest:
            panel = self._panel("")
            low, high = panel.plan[1] + _AIR / 2, panel.plan[3] - _AIR / 2
            taken: list[Item] = []
            told: list[str] = []
            while rest and (not told or high - _height(rest[0][1]) >= low):
                numbers, items = rest.pop(0)
                taken += [moved(item, (panel.plan[0] + _AIR, high - extent(items)[1])) for item in items]
                high -= _height(items) + _GAP
                told.append(numbers)
            first, last = told[0].split()[0], told[-1].split()[-1]
            panel = self._panel(f"Boards {first} to {last} of {len(self.boards)}: where to saw")
            yield framed(self.head.title, self.paper, self.scale, taken, panel, (0.0, 0.0))

    def _panel(self, says: str) -> Panel:
        frame = (MARGIN, MARGIN, self.paper.width - MARGIN, self.paper.height - MARGIN)
        title = title_block(self.head, self.scale, self.paper.name, [line for line in (says, _HOW) if line])
        panel = next(arrange(title, (_key(),), frame, self.paper.landscape), None)
        assert panel is not None, "two boxes must fit a lying sheet"
        return panel


def _height(items: Sequence[Item]) -> float:
    low, high = extent(items)
    return high - low


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
