"""Lumber sections by name: from the table of dressed sizes, as written, or as taped on the real boards."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from pydantic import TypeAdapter
from pydantic_core import PydanticCustomError

from fitter.domain.findings import Severity
from fitter.domain.frame import Section
from fitter.domain.sections import NOMINAL, dressed
from fitter.project.fields import Text, read_length
from fitter.project.forms import SectionsForm
from fitter.project.ledger import Ledger
from fitter.project.tree import Data
from fitter.project.words import nearest, shown
from rooms.lengths import Length, Unit

THICKEST = Length.inches(24)
"""Common practice: a thicker part was most likely written in another unit."""
MEASURED_OFF = Length.inches("1/2")
"""Common practice: a board that is off by more was most likely sold under another name."""

_NOMINAL = re.compile(r"\d+(/\d+)?x\d+")
_TIMES = re.compile(r"\s*[x×X]\s*")
_UNIT_AFTER = re.compile(r"(mm|cm|m|in|inch|inches|ft|\"|″)\.?$")
_TEXT: TypeAdapter[str] = TypeAdapter(Text)


@dataclass(frozen=True)
class Lumber:
    """Reads sections with what was taped on the real boards at hand.

    Args:
        ledger: takes the mistakes.
        measured: name to the section as taped.
    """

    ledger: Ledger
    measured: Mapping[str, Section] = field(default_factory=dict)

    def section(self, text: str, key: str) -> Section | None:
        """A section as `read_section` has it, or as taped where its name was."""
        found = read_section(self.ledger, text, key)
        return self.measured.get(found.name, found) if found is not None else None

    def written(self, data: Data) -> dict[str, Section]:
        """The sections that `frame.sections` names, by the kind of part."""
        form = self.ledger.section(SectionsForm, data, "frame.sections")
        found = {}
        for part in SectionsForm.model_fields:
            text = getattr(form, part)
            section = self.section(text, f"frame.sections.{part}") if text is not None else None
            if section is not None:
                found[part] = section
        return found

    def usual(self, text: str) -> Section:
        """A section that no file wrote; a nominal one under its size in a metric file."""
        section = dressed(text, self.ledger.unit) or read_section(self.ledger, text, "frame")
        assert section is not None, f"the usual section {text} must be readable"
        if not self.ledger.unit.imperial:
            section = replace(section, name=section_name(section.thickness, section.width, self.ledger.unit))
        return self.measured.get(section.name, section)

    def thinnest(self, texts: Iterable[str], least: Length) -> Section | None:
        """The first of some usual sections, rising, that is at least so thick; None if none is."""
        return next((found for text in texts if (found := self.usual(text)).thickness >= least), None)

    def at_most(self, texts: Iterable[str], most: Length) -> Section:
        """The first of some usual sections, falling, that is at most so thick; else one that is made so thin."""
        sections = [self.usual(text) for text in texts]
        fitting = next((section for section in sections if section.thickness <= most), None)
        wide = max(sections[-1].width, most)
        return fitting or Section(section_name(most, wide, self.ledger.unit), most, wide)


def read_lumber(ledger: Ledger, data: Data) -> Lumber:
    """The lumber of a project; `frame.measured` says what was taped on real boards, name by name."""
    measured: dict[str, Section] = {}
    for key, name, value in ledger.entries(data, "frame.measured", '{2x4: 1 1/2" x 3 7/16"}'):
        text = ledger.value(_TEXT, value, key, "two lengths, thickness x width")
        known = read_section(ledger, name, key)
        taped = read_section(ledger, text, key) if text is not None else None
        if known is None or taped is None:
            continue
        if known.name in measured:
            ledger.error("named-twice", f"`{shown(name)}` is measured twice", key, "keep one", at_key=True)
        measured[known.name] = replace(taped, name=known.name, measured=True)
        _check_measured(ledger, key, known, taped)
    return Lumber(ledger, measured)


def _check_measured(ledger: Ledger, key: str, known: Section, taped: Section) -> None:
    off = max(abs(taped.thickness - known.thickness), abs(taped.width - known.width))
    if ledger.unit_known and off > MEASURED_OFF:
        sizes = (f"{ledger.say(section.thickness)} x {ledger.say(section.width)}" for section in (taped, known))
        message = "section `{}` was measured as {} and is usually {}".format(shown(known.name), *sizes)
        help = "the measured size is used; check that it belongs to this section"
        ledger.remark("measured-differs", message, key, help, severity=Severity.CAUTION)


def read_section(ledger: Ledger, text: str, key: str) -> Section | None:
    """A section by its nominal name (`2x4`) or its dressed size (`38 x 140 mm`, `1 1/2" x 7 1/4"`).

    Returns:
        The section, thickness before width; None, with the mistake recorded, if it is neither.
    """
    short = _TIMES.sub("x", text.strip())
    if (known := dressed(short, ledger.unit)) is not None:
        return known
    sides = short.split("x")
    if len(sides) != 2:
        message = f"`{shown(text)}` is no section"
        ledger.error("not-a-section", message, key, _section_help(short))
        return None
    # A unit after the second number is meant for both.
    unit = _UNIT_AFTER.search(sides[1])
    if unit is not None and re.fullmatch(r"[\d ./-]+", sides[0]):
        sides[0] += unit[1]
    elif unit is None and ledger.unit.imperial and _NOMINAL.fullmatch(short):
        ledger.error(
            "not-a-section",
            f"`{shown(text)}` is not in the table of dressed sizes",
            key,
            _section_help(short),
        )
        return None
    try:
        thin, wide = sorted(read_length(side, ledger.unit) for side in sides)
    except PydanticCustomError as error:
        message = (error.context or {}).get("message", "")
        ledger.error("not-a-section", f"`{shown(text)}` is no section: {message}", key, _section_help(short))
        return None
    return _sized(ledger, text, thin, wide, key)


def _sized(ledger: Ledger, text: str, thin: Length, wide: Length, key: str) -> Section | None:
    if not thin or wide > THICKEST:
        message = f"section `{shown(text)}` is {ledger.say(thin)} x {ledger.say(wide)}"
        help = f"a dressed size is above zero and at most {ledger.say(THICKEST)}; is the unit right?"
        ledger.error("size-absurd", message, key, help)
        return None
    return Section(section_name(thin, wide, ledger.unit), thin, wide)


def section_name(thin: Length, wide: Length, unit: Unit) -> str:
    """One spelling for an explicit size: in inches where a tape shows them, else in millimetres."""
    if unit.imperial and all(64 % side.inch.denominator == 0 for side in (thin, wide)):
        return f'{_mixed(thin)}" x {_mixed(wide)}"'
    return f"{_decimal(thin)} x {_decimal(wide)} mm"


def _mixed(length: Length) -> str:
    whole, part = divmod(length.inch, 1)
    return " ".join(str(word) for word in (whole, part) if word)


def _decimal(length: Length) -> str:
    return f"{float(length.mm):g}"


def _like(text: str) -> str | None:
    """The nominal size of the same thickness whose width is the nearest; None if the text is no nominal size."""
    if not _NOMINAL.fullmatch(text) or len(text) > len("5/4x99"):
        return None
    thick, _, wide = text.rpartition("x")
    widths = [int(name.rpartition("x")[2]) for name in NOMINAL if name.startswith(f"{thick}x")]
    return f"{thick}x{min(widths, key=lambda width: abs(width - int(wide)))}" if widths else None


def _section_help(text: str) -> str:
    near = _like(text) or nearest(text, NOMINAL)
    more = f"; did you mean `{near}`?" if near else ""
    return f"write a nominal name such as `2x4`, or a dressed size such as `38 x 140 mm`{more}"
