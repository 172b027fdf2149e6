"""A whole project: the room, the cushions, the wishes, and where each was written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fitter.domain.cushions import Cushion
from fitter.domain.findings import Finding, Place
from fitter.domain.frame import Frame, Shop
from fitter.domain.wishes import Wish
from rooms.lengths import Length, Unit
from rooms.room import Room


@dataclass(frozen=True)
class Project:
    """What one project file says, checked and complete with defaults.

    Args:
        title: for the title block.
        unit: what a bare number means; also the system for printing.
        room: the adjusted room.
        cushions: the kinds that may be used, in the order of the file.
        wish: what is asked.
        frame: sizes of wood.
        shop: boards and saw.
        file: the path as the user wrote it.
        note: a line for the title block (demo data says there that it is invented).
        places: key path to its place in the file, for each key that was written.
        findings: cautions and notes that reading gave rise to.
        flags: key path to the flag of the command line that beats what the file says there.
    """

    title: str
    unit: Unit
    room: Room
    cushions: tuple[Cushion, ...]
    wish: Wish
    frame: Frame
    shop: Shop
    file: str = ""
    note: str = ""
    places: Mapping[str, Place] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
    flags: Mapping[str, str] = field(default_factory=dict)

    @property
    def mark(self) -> Length:
        """The shop mark that pitches and cut lengths sit on."""
        return self.unit.mark

    def place(self, key: str) -> Place | None:
        """Where a key, or the nearest key above it that was written, stands in the file."""
        while key and key not in self.places:
            key = key.rpartition(".")[0]
        return self.places.get(key)
