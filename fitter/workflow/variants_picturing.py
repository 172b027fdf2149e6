"""Variants to files: a page of small pictures and a table, as PDF, SVG and PNG."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from fitter.domain.designs import Design, design_of
from fitter.domain.growth import growths
from fitter.domain.project import Project
from fitter.domain.spending import more_in_all
from fitter.domain.variants import Variant, Variants
from fitter.drawing import write_pages
from fitter.drawing.variants_page import Cell, Sheetful, variants_pages
from fitter.drawing.variants_table import Table
from fitter.report.variants import growing, names
from fitter.report.variants.tables import notes, verdict_line
from fitter.report.words import Teller, counted, teller

HEADS = (
    "no.", "variant", "length", "depth", "seats", "seat cushions", "back cushions", "posts",
    "boards", "boards cost", "cushions cost", "in all", "against 0", "the room of the file",
)  # fmt: skip
_RIGHT = frozenset({0, *range(2, 13)})
_SPARE = frozenset({9, 10})
_WITHIN = re.compile(r"(?<=\d) (?=\d+/\d)|(?<=\d') (?=\d)|(?<=\d) (?=mm\b)")


def write_variants(project: Project, found: Variants, folder: Path, *, sheet: str | None = None) -> list[Path]:
    """Draw the variants of a plan and write them under the name of the project file.

    Args:
        project: as published.
        found: with a base that is built; those of `courtyard.yaml` give `courtyard-variants.pdf`, `.svg` and `.png`.
        folder: made if it is not there.
        sheet: a paper that must be used; None to choose.

    Returns:
        The files written; none where not even the base is built.

    Raises:
        ValueError: they are too large for the sheet.
        OSError: a file cannot be written.
    """
    if found.base is None or not found.base.built or found.fit.layout is None:
        return []
    pages = variants_pages(project, sheetful(project, found, design_of(found.fit.layout)), sheet)
    folder.mkdir(parents=True, exist_ok=True)
    return write_pages(pages, folder / f"{Path(project.file).stem}-variants")


def sheetful(project: Project, found: Variants, base: Design) -> Sheetful:
    """The words and numbers of the page."""
    assert found.base is not None, "there is a base"
    tell, cut = teller(project.unit), teller(project.unit, feet=False)
    grown = [tied(" ".join(growing.sentences(growth, tell, cut))) for growth in growths(project, found, base)]
    return Sheetful(
        cells=tuple(_cell(found.base, variant, base, tell) for variant in found.every if variant.built),
        table=Table(
            HEADS,
            tuple(_row(project, found.base, variant, base, tell) for variant in found.every),
            _RIGHT,
            _SPARE,
            tuple(grown),
        ),
        says=("The published plan at neighbouring sizes", verdict_line(found), *notes(project, found)),
    )


def tied(text: str) -> str:
    """A text whose lengths are not broken between lines."""
    return _WITHIN.sub("\N{NO-BREAK SPACE}", text)


def _cell(published: Variant, variant: Variant, base: Design, tell: Teller) -> Cell:
    length, depth = variant.size
    lines = [f"{tell(length)} × {tell(depth)}", _paid(published, variant)]
    head = f"{variant.number}   {names.name(variant.change, base)}"
    return Cell(head, tuple(lines), variant.layout)


def _paid(published: Variant, variant: Variant) -> str:
    told = f"{counted(variant.layout.seats, 'seat')}; {names.total(variant.spent)}"
    if variant is published:
        return told
    return f"{told} ({names.signed_more(more_in_all(published.spent, variant.spent))})"


def _row(project: Project, published: Variant, variant: Variant, base: Design, tell: Teller) -> tuple[str, ...]:
    called = names.name(variant.change, base)
    if not variant.built:
        return (str(variant.number), called, *([""] * (len(HEADS) - 3)), names.unbuilt(variant))
    return (str(variant.number), called, *_numbers(published, variant, tell), _first(project, variant, tell))


def _numbers(published: Variant, variant: Variant, tell: Teller) -> Iterator[str]:
    length, depth = variant.size
    spent = variant.spent
    yield tell(length)
    yield tell(depth)
    yield str(variant.layout.seats)
    yield str(sum(kind.seats for kind in variant.cushions))
    yield str(sum(kind.backs for kind in variant.cushions))
    yield str(variant.posts)
    yield str(variant.bought.total())
    yield names.cents(spent.boards)
    yield names.cents(spent.cushions)
    yield names.total(spent)
    more = names.signed_more(more_in_all(published.spent, spent))
    yield "" if variant is published else more


def _first(project: Project, variant: Variant, tell: Teller) -> str:
    """Whether the author's room holds it; only the first clause of why not.

    It stands below its row, without its head, on a sheet that is too narrow for it.
    """
    first, _, rest = names.here(project, variant, tell).partition("; ")
    told = {"yes": "fits the room of the file", "no": "does not fit the room of the file"}
    word, because, why = first.partition(", because ")
    return tied(f"{told.get(word, word)}{because}{why}{' and more' if rest else ''}")
