"""How a corner is told in words, in tables and on drawings alike."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from fitter.domain.layout import Layout, Notch
from fitter.domain.notching import CutCushion
from fitter.domain.wishes import CornerKind, Shape, Side
from rooms.lengths import UNITS_PER_INCH, UNITS_PER_MM, Length

SEAMS = (
    "Sides are those of a person who faces the cushion. A box cushion has a seam along every edge of its sides: "
    "a notch always cuts the seams at its corner."
)

Tell = Callable[[Length], str]


def corner_name(layout: Layout, arm: Side | None) -> str:
    """The name of a corner place, told apart by its arm where there are two."""
    return f"{arm} corner" if layout.shape is Shape.U else "corner"


def notch_told(notch: Notch, tell: Tell) -> str:
    """The size of what is cut: along the main run, then across; of two strips how deep they are, and how long.

    >>> from fitter.domain.layout import Box
    >>> from rooms.lengths import ZERO
    >>> inch = Length.inches
    >>> notch = Notch(Box(ZERO, ZERO, inch(3), inch(4)), inch(3), inch(4))
    >>> notch_told(notch, lambda length: f"{length.inch} in")
    '3 in × 4 in'
    >>> strips = Box(ZERO, ZERO, inch(3), inch(1)), Box(ZERO, inch(1), inch(1), inch(4))
    >>> notch_told(Notch(notch.box, inch(3), inch(4), strips, inch(1)), lambda length: f"{length.inch} in")
    '1 in deep along 3 in and 4 in'
    """
    if notch.depth is None:
        return f"{tell(notch.along_x)} × {tell(notch.along_y)}"
    return f"{tell(notch.depth)} deep along {tell(notch.along_x)} and {tell(notch.along_y)}"


def foam_told(cut: CutCushion, *, imperial: bool) -> str:
    """How much foam is cut away: its area seen from above, and its volume.

    >>> from fitter.domain.cushions import Cushion, CushionSide
    >>> inch = Length.inches(1)
    >>> sides = CushionSide.BACK, CushionSide.RIGHT
    >>> kind = Cushion("seat", inch, inch, inch)
    >>> cut = CutCushion(Side.RIGHT, kind, sides, 9 * inch.units**2, 45 * inch.units**3, None, None, ())
    >>> foam_told(cut, imperial=True), foam_told(cut, imperial=False)
    ('9.0 sq in, 45.0 cu in', '58.1 cm², 737 cm³')
    """
    if imperial:
        area, volume = Fraction(cut.area, UNITS_PER_INCH**2), Fraction(cut.volume, UNITS_PER_INCH**3)
        return f"{_decimal(area)} sq in, {_decimal(volume)} cu in"
    area, volume = Fraction(cut.area, (10 * UNITS_PER_MM) ** 2), Fraction(cut.volume, (10 * UNITS_PER_MM) ** 3)
    return f"{_decimal(area)} cm², {round(volume)} cm³"


def _decimal(value: Fraction) -> str:
    """A number of at least nought to one decimal."""
    tenths = round(value * 10)
    return f"{tenths // 10}.{tenths % 10}"


def zip_told(cut: CutCushion) -> str:
    """What becomes of the zip, in a word or two."""
    if cut.zip_cut is None:
        return "not said where"
    return f"cut, in the {cut.cushion.zip}" if cut.zip_cut else f"whole, in the {cut.cushion.zip}"


def zip_kept(layout: Layout, cut: CutCushion) -> str:
    """How the zip of a cushion that is cut through it stays whole; empty where it is whole anyway, or not known."""
    if not cut.keeps:
        return ""
    first, *others = [(str(way.turn), f"faces the {_run(layout, way.beside)}") for way in cut.keeps]
    name = corner_name(layout, cut.corner)
    told = f"{first[0].capitalize()} before the cut keeps the zip of the {name} cushion whole: it then {first[1]}."
    more = [f"So does {turn}, seen from above: it then {faces}." for turn, faces in others]
    return " ".join([told, *more])


def _run(layout: Layout, side: Side) -> str:
    if side is Side.MAIN:
        return "main run"
    return f"{side} arm" if layout.shape is Shape.U else "short run"


def corner_told(layout: Layout, overhang: Length, tell: Tell) -> Iterator[str]:
    """Sentences: what holds the backs where runs meet and who gives way to it, and what lies bare behind cushions.

    Args:
        layout: the layout.
        overhang: how far its cushions come forward over the front of the wood, on the shop mark.
        tell: writes lengths.
    """
    if layout.corner is not None:
        yield f"{_held(layout)}; {_gives_way(layout, overhang, tell)}."
    if overhang:
        off = "as far" if layout.gap == overhang else tell(layout.gap)
        yield f"Cushions come {tell(overhang)} forward over the front of the wood and lie {off} off the backs."


def _held(layout: Layout) -> str:
    each = "each" if layout.shape is Shape.U else "the"
    short = f"The post of {each} corner ends under the seats; above it"
    if layout.corner is CornerKind.ANGLE_POST:
        return f"{short} two flat boards stand on the faces of the backs"
    if layout.corner is CornerKind.LOW_POST:
        return f"{short} the backs are joined to each other"
    stands = "outside" if layout.corner is CornerKind.OUTSIDE_POST else "in"
    return f"A post stands {stands} {each} corner, up to the top of the backs"


def _gives_way(layout: Layout, overhang: Length, tell: Tell) -> str:
    several = len(layout.corners) > 1
    cushion = "the cushions there" if several else "the cushion there"
    if layout.corner is CornerKind.TABLE_CORNER:
        return "tables stand there instead of cushions" if several else "a table stands there instead of a cushion"
    if layout.notches:
        post = "along both boards" if layout.corner is CornerKind.ANGLE_POST else "for it"
        if layout.notches < len(layout.corners):
            return f"one of {cushion} is cut {post}"
        return f"{cushion} {'are' if several else 'is'} cut {post}"
    whole = f"{cushion} {'stay' if several else 'stays'} whole"
    if layout.gap == overhang:
        return whole
    off = f"{tell(layout.gap - overhang)} {'farther ' if overhang else ''}off the backs"
    return f"all cushions lie {off}, so that {whole}"
