"""Papers and scales, and which of them to use."""

from __future__ import annotations

from dataclasses import dataclass

MARGIN = 10.0  # ISO 5457: 10 mm at the edges of A2 to A4 sheets (from memory)


@dataclass(frozen=True)
class Sheet:
    """A paper: its name and its size in millimetres as it lies."""

    name: str
    width: float
    height: float

    @property
    def landscape(self) -> bool:
        """Whether it is wider than high."""
        return self.width > self.height


@dataclass(frozen=True)
class Scale:
    """How many times true size is that on paper, and how it is written."""

    denominator: int
    written: str


_ISO = (("A4", 210.0, 297.0), ("A3", 297.0, 420.0))  # ISO 216
_US = (("Letter", 215.9, 279.4), ("Tabloid", 279.4, 431.8))  # ANSI A and B: 8 1/2 x 11 in, 11 x 17 in

# ISO 5455, reductions (from memory): 2, 5 and 10 times powers of ten; and 1:25, common practice in building.
METRIC = tuple(Scale(d, f"1:{d}") for d in (5, 10, 20, 25, 50, 100, 200, 500, 1000))
# United States practice: inches of paper to one foot; 12 / inches is the denominator.
ARCHITECTURAL = tuple(
    Scale(d, f"{inches}\" = 1'-0\"  (1:{d})")
    for d, inches in (
        (8, "1 1/2"), (12, "1"), (16, "3/4"), (24, "1/2"), (32, "3/8"),
        (48, "1/4"), (64, "3/16"), (96, "1/8"), (128, "3/32"), (192, "1/16"), (384, "1/32"),
    )
)  # fmt: skip


def scales(imperial: bool) -> tuple[Scale, ...]:
    """The usual scales, largest first."""
    return ARCHITECTURAL if imperial else METRIC


def sheets(imperial: bool, name: str | None = None) -> tuple[Sheet, ...]:
    """The papers to try, smallest first, lying before standing.

    Args:
        imperial: whether the project is in inches or feet.
        name: one paper that must be used, such as `A3`; None for the usual two.

    Raises:
        ValueError: no such paper; the message names those there are.
    """
    known = (*_ISO, *_US)
    wanted = [paper for paper in known if name is not None and paper[0].lower() == name.lower()]
    if name is not None and not wanted:
        message = f"`{name}` is not a sheet; use one of {', '.join(paper[0] for paper in known)}"
        raise ValueError(message)
    return tuple(
        sheet
        for paper, short, long in wanted or (_US if imperial else _ISO)
        for sheet in (Sheet(f"{paper} landscape", long, short), Sheet(f"{paper} portrait", short, long))
    )
