"""The drawings of a frame on their sheets: elevations of each run, sections, and the parts of each run moved apart."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from fitter.domain.layout import Face, Layout, Run
from fitter.domain.project import Project
from fitter.domain.woodwork import Woodwork
from fitter.drawing.arranging import Rectangle, arrange, placed_inside
from fitter.drawing.block import Built, title_block
from fitter.drawing.frame.above import FromAbove
from fitter.drawing.frame.elevation import Elevation
from fitter.drawing.frame.ends import EndView, end_views
from fitter.drawing.frame.exploded import Exploded
from fitter.drawing.frame.facing import facing, run_name
from fitter.drawing.frame.keys import elevation_signs, key_block, part_blocks, section_signs
from fitter.drawing.frame.picture import Picture, Scene, in_rows, stacked_up
from fitter.drawing.frame.section import Section, sections
from fitter.drawing.page import Item, Page, Spot
from fitter.drawing.panel import heading
from fitter.drawing.plan import framed
from fitter.drawing.sheets import MARGIN, Scale, Sheet, scales, sheets
from fitter.drawing.view import View

_GAP = 9.0  # between pictures, mm
_BESIDE = 10.0  # what dimensions take beside a picture at least, mm
_HIGH = {"the front": 27.0, "the back": 52.0, "above": 32.0}  # the same above and below, names included
_SPLITS = (
    (("the front", "the back", "above"),),
    (("the front", "the back"), ("above",)),
    (("the front",), ("the back",), ("above",)),
)
_TOO_LARGE = "the frame is too large for the sheet at every usual scale; name a larger sheet"
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
    runs = [page for run in layout.runs for page in book.run(run)]
    return [*runs, *book.across(), *(book.exploded(run) for run in layout.runs)]


class _View(Protocol):
    """Something that can be drawn on a page with others."""

    def scene(self, view: View) -> Scene:
        """What is seen."""

    def drawn(self, denominator: int) -> Picture:
        """The picture at a scale."""


@dataclass(frozen=True)
class _Book:
    project: Project
    layout: Layout
    woodwork: Woodwork
    sheet: str | None
    verdict: str

    def run(self, run: Run) -> list[Page]:
        """A run from its front, its back and above: on one sheet, or on as many as show it well."""
        what = (self.project, self.layout, self.woodwork, facing(run))
        front, back, above = Elevation(*what, Face.FRONT), Elevation(*what, Face.BACK), FromAbove(*what)
        views: dict[str, _View] = {"the front": front, "the back": back, "above": above}
        name = run_name(self.layout, run.side)
        pages: dict[tuple[str, ...], Page | None] = {}
        for split in _SPLITS:
            for names in split:
                if names not in pages:
                    pages[names] = self._from(name, {side: views[side] for side in names}, split[-1] == ("above",))
            found = [page for names in split if (page := pages[names])]
            if len(found) == len(split):
                return found
        raise ValueError(_TOO_LARGE)

    def _from(self, name: str, views: Mapping[str, _View], last: bool) -> Page | None:
        """A sheet with views of a run; None if they cannot be shown well on one, unless it is their last chance."""
        sizes = [_size(view.scene(View(1, self.project.unit))) for view in views.values()]
        least = (max(wide for wide, _ in sizes), sum(high for _, high in sizes))

        def drawn(denominator: int) -> tuple[tuple[Item, ...], ...]:
            return (stacked_up([view.drawn(denominator) for view in views.values()], _GAP),)

        *first, end = views
        says = f"Frame: {name} from {', '.join(first)}{' and ' if first else ''}{end}"
        sketch = _Sketch(drawn, least, (_BESIDE, sum(_HIGH[side] for side in views) + _GAP * (len(views) - 1)))
        return self._found(
            says, sketch, (key_block(elevation_signs(floor=tuple(views) != ("above",))),), (24, 25), must=last
        )

    def across(self) -> list[Page]:
        """Sections and ends: on one sheet, or on two if that shows them well."""
        what = (self.project, self.layout, self.woodwork)
        cut, ends = sections(*what), end_views(*what)
        signs = (key_block(section_signs()),)
        together = self._beside("Frame: sections and ends", (*cut, *ends), signs, must=False) if ends else None
        if together is not None:
            return [together]
        pages = [self._beside("Frame: sections", cut, signs)]
        if ends:
            pages.append(self._beside("Frame: ends", ends, ()))
        return [page for page in pages if page is not None]

    def _beside(
        self, says: str, every: Sequence[Section | EndView], others: Sequence[Built], *, must: bool = True
    ) -> Page | None:
        """Pictures side by side, in as many rows as it takes."""

        def drawn(denominator: int) -> tuple[tuple[Item, ...], ...]:
            pictures = [each.drawn(denominator) for each in every]
            return tuple(in_rows(pictures, columns, _GAP) for columns in range(len(pictures), 0, -1))

        page = self._found(says, _Sketch(drawn, (0.0, 0.0)), others, (8, 10), must=must)
        if page is None and must:
            raise ValueError(_TOO_LARGE)
        return page

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
        page = self._found(says, sketch, others, readable, note)
        if page is None:
            raise ValueError(_TOO_LARGE)
        return page

    def _found(
        self,
        says: str,
        sketch: _Sketch,
        others: Sequence[Built],
        readable: tuple[int, int],
        note: str = "",
        *,
        must: bool = True,
    ) -> Page | None:
        """The smallest sheet that shows a drawing well, with the boxes beside it if there is any room for them.

        Args:
            says: for the title block.
            sketch: what is drawn.
            others: boxes beside it.
            readable: denominators of the smallest scales that show it well, of inches and of millimetres.
            note: for the title block.
            must: whether a smaller scale will do where no sheet shows it well.

        Returns:
            The page; None if there is none.
        """
        imperial = self.project.unit.imperial
        enough = readable[0] if imperial else readable[1]
        lines = tuple(line for line in (says, note, self.verdict) if line)
        papers = sheets(imperial, self.sheet)
        sizes = list(dict.fromkeys(paper.name.split()[0] for paper in papers))
        good = [scale for scale in scales(imperial) if scale.denominator <= enough]
        poor = [scale for scale in scales(imperial) if scale.denominator > enough]
        ways = [([size], good) for size in sizes] + [(sizes, [scale]) for scale in poor if must]
        for boxes in dict.fromkeys((tuple(others), ())):
            for names, allowed in ways:
                for name in names:
                    same = [paper for paper in papers if paper.name.split()[0] == name]
                    page = next(self._tries(same, allowed, sketch, boxes, lines), None)
                    if page is not None:
                        return page
        return None

    def _tries(
        self,
        papers: Sequence[Sheet],
        allowed: Sequence[Scale],
        sketch: _Sketch,
        others: Sequence[Built],
        says: Sequence[str],
    ) -> Iterator[Page]:
        """Pages that work on papers of one size, largest scale first, lying before standing."""
        for scale in allowed:
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
        around: what dimensions and names take around it at least, mm of paper.
        drawn: by denominator.
    """

    draw: Drawing
    least: Spot
    around: Spot = (0.0, 0.0)
    drawn: dict[int, tuple[tuple[Item, ...], ...]] = field(default_factory=dict)

    def at(self, scale: Scale) -> tuple[tuple[Item, ...], ...]:
        """The ways at a scale."""
        if scale.denominator not in self.drawn:
            self.drawn[scale.denominator] = self.draw(scale.denominator)
        return self.drawn[scale.denominator]

    def may_fit(self, scale: Scale, plan: Rectangle) -> bool:
        """Whether the wood with the least that stands around it fits; saves drawing what cannot."""
        wide, high = (side / scale.denominator + more for side, more in zip(self.least, self.around, strict=True))
        return wide < plan[2] - plan[0] and high < plan[3] - plan[1]


def _size(scene: Scene) -> Spot:
    """Width and height of what is drawn, in mm of paper."""
    spots = [scene.paper.at(scene.sight.gaze.at(spot)) for solid in scene.solids for spot in solid.spots]
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    return max(xs) - min(xs), max(ys) - min(ys)
