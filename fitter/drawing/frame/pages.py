"""The drawings of a frame on their sheets: elevations of each run, sections, and the parts of each run moved apart."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from fitter.domain.layout import Face, Layout, Run
from fitter.domain.project import Project
from fitter.domain.woodwork import Woodwork
from fitter.drawing.arranging import Rectangle, arrange, placed_inside
from fitter.drawing.block import Built, title_block
from fitter.drawing.frame.elevation import Elevation
from fitter.drawing.frame.exploded import Exploded
from fitter.drawing.frame.facing import facing, run_name
from fitter.drawing.frame.keys import elevation_signs, key_block, part_blocks, section_signs
from fitter.drawing.frame.picture import Scene, in_rows, stacked_up
from fitter.drawing.frame.section import sections
from fitter.drawing.page import Item, Page, Spot
from fitter.drawing.panel import heading
from fitter.drawing.plan import framed
from fitter.drawing.sheets import MARGIN, Scale, Sheet, scales, sheets
from fitter.drawing.view import View

_GAP = 9.0  # between pictures, mm
Drawing = Callable[[int], tuple[tuple[Item, ...], ...]]


def frame_pages(
    project: Project, layout: Layout, woodwork: Woodwork, sheet: str | None = None, verdict: str = ""
) -> list[Page]:
    """Draw the frame of a layout, true to scale.

    For each page the smallest sheet is taken that shows it at a scale at which parts can be told apart, at the largest
    usual scale that fits; where no sheet does, the one with the largest scale.

    Args:
        project: the unit, the cushions, title and note.
        layout: what the frame carries.
        woodwork: its parts.
        sheet: name of a paper that must be used; None to choose.
        verdict: a line for the title blocks that says how the answer stands.

    Returns:
        Front and back of each run, then the sections, then the parts of each run moved apart.

    Raises:
        ValueError: no such sheet, or a picture is too large for the sheet at the smallest usual scale.
    """
    book = _Book(project, layout, woodwork, sheet, verdict)
    runs = [book.elevations(run) for run in layout.runs]
    return [*runs, book.sections(), *(book.exploded(run) for run in layout.runs)]


@dataclass(frozen=True)
class _Book:
    project: Project
    layout: Layout
    woodwork: Woodwork
    sheet: str | None
    verdict: str

    def elevations(self, run: Run) -> Page:
        """A run from its front and from its back, and its deck from above."""
        views = [
            Elevation(self.project, self.layout, self.woodwork, facing(run), face) for face in (Face.FRONT, Face.BACK)
        ]

        def drawn(denominator: int) -> tuple[tuple[Item, ...], ...]:
            pictures = [view.drawn(denominator) for view in views]
            return (stacked_up(pictures, _GAP),)

        wide, high = _size(views[0].scene(View(1, self.project.unit)))
        says = f"Frame: {run_name(self.layout, run.side)}, front and back"
        return self._page(says, _Sketch(drawn, (wide, len(views) * high)), (key_block(elevation_signs()),), (24, 25))

    def sections(self) -> Page:
        """A section of each different run."""
        every = sections(self.project, self.layout, self.woodwork)

        def drawn(denominator: int) -> tuple[tuple[Item, ...], ...]:
            pictures = [section.drawn(denominator) for section in every]
            return tuple(in_rows(pictures, columns, _GAP) for columns in range(len(pictures), 0, -1))

        return self._page("Frame: sections", _Sketch(drawn, (0.0, 0.0)), (key_block(section_signs()),), (12, 10))

    def exploded(self, run: Run) -> Page:
        """The parts of a run moved apart."""
        what = Exploded(self.project, self.layout, self.woodwork, facing(run))
        parts = part_blocks([self.woodwork.parts[n] for n in what.numbers], View(1, self.project.unit))
        says = f"Frame: parts of the {run_name(self.layout, run.side)}, moved apart"

        def drawn(denominator: int) -> tuple[tuple[Item, ...], ...]:
            return (what.drawn(denominator).items,)

        sketch = _Sketch(drawn, _size(what.scene(View(1, self.project.unit))))
        return self._page(says, sketch, parts, (24, 25), "Isometric: lengths along the three axes are to scale")

    def _page(
        self, says: str, sketch: _Sketch, others: Sequence[Built], readable: tuple[int, int], note: str = ""
    ) -> Page:
        """The smallest sheet that shows a drawing well, with the boxes beside it if there is any room for them."""
        imperial = self.project.unit.imperial
        enough = readable[0] if imperial else readable[1]
        lines = tuple(line for line in (says, note, self.verdict) if line)
        papers = sheets(imperial, self.sheet)
        best: Page | None = None
        for boxes in dict.fromkeys((tuple(others), ())):
            for size in dict.fromkeys(paper.name.split()[0] for paper in papers):
                same = [paper for paper in papers if paper.name.split()[0] == size]
                page = next(self._tries(same, sketch, boxes, lines), None)
                if page is not None and (best is None or page.denominator < best.denominator):
                    best = page
                if best is not None and best.denominator <= enough:
                    return best
            if best is not None:
                return best
        message = "the frame is too large for the sheet at every usual scale; name a larger sheet"
        raise ValueError(message)

    def _tries(
        self, papers: Sequence[Sheet], sketch: _Sketch, others: Sequence[Built], says: Sequence[str]
    ) -> Iterator[Page]:
        """Pages that work on papers of one size, largest scale first, lying before standing."""
        for scale in scales(self.project.unit.imperial):
            for paper in papers:
                frame = (MARGIN, MARGIN, paper.width - MARGIN, paper.height - MARGIN)
                title = title_block(heading(self.project), scale, paper.name, says)
                for panel in arrange(title, others, frame, paper.landscape):
                    if not sketch.may_fit(scale, panel.plan):
                        continue
                    for items in sketch.at(scale):
                        shift = placed_inside(items, panel.plan)
                        if shift is not None:
                            yield framed(self.project.title, paper, scale, items, panel, shift)


@dataclass
class _Sketch:
    """Pictures on the way to their page; what was drawn at a scale is kept for the next paper.

    Attributes:
        draw: the ways to lay them out at a scale.
        least: true width and height that the wood alone takes, mm.
        drawn: by denominator.
    """

    draw: Drawing
    least: Spot
    drawn: dict[int, tuple[tuple[Item, ...], ...]] = field(default_factory=dict)

    def at(self, scale: Scale) -> tuple[tuple[Item, ...], ...]:
        """The ways at a scale."""
        if scale.denominator not in self.drawn:
            self.drawn[scale.denominator] = self.draw(scale.denominator)
        return self.drawn[scale.denominator]

    def may_fit(self, scale: Scale, plan: Rectangle) -> bool:
        """Whether the bare wood fits; saves drawing what cannot."""
        wide, high = (side / scale.denominator for side in self.least)
        return wide < plan[2] - plan[0] and high < plan[3] - plan[1]


def _size(scene: Scene) -> Spot:
    """Width and height of what is drawn, in mm of paper."""
    spots = [scene.paper.at(scene.sight.gaze.at(spot)) for solid in scene.solids for spot in solid.spots]
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    return max(xs) - min(xs), max(ys) - min(ys)
