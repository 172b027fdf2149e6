"""A project file with other cushions put in, one after another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from fitter.domain.catalogue import Candidate, Row
from fitter.domain.cushions import Cushion
from fitter.domain.findings import ProjectError, Severity
from fitter.domain.project import Project
from fitter.project import open_project
from fitter.project.room import read_room_section
from fitter.project.wish import read_wish
from fitter.project.wood import read_frame, read_shop
from rooms.lengths import Unit


class Mould:
    """A project file but for its cushions, and a project for each that is put into it.

    Args:
        path: of the file, as the user wrote it. What it says of its own cushions is passed
            over.

    Raises:
        ProjectError: with every mistake of the rest.
    """

    def __init__(self, path: str) -> None:
        self.ledger, self.form = open_project(path, None)
        room, _, names = read_room_section(self.ledger, self.form.room)
        wish = read_wish(self.ledger, self.form.wish, names)
        # What is wrong with the wood, whatever the cushion, is a mistake of the file and none of a row.
        bare = self.ledger.branch()
        frame, lumber = read_frame(bare, self.form.frame)
        read_shop(bare, self.form.shop, frame, lumber)
        bare.settle()
        assert room is not None, "a room without mistakes has been built"
        # With the cushions of the file goes what it says of buying more than these.
        self.path, self.room, self.wish = path, room, replace(wish, buy_most=None)

    @property
    def title(self) -> str:
        """For headings."""
        return self.form.title or Path(self.path).stem

    @property
    def note(self) -> str:
        """A line below the title; empty if none."""
        return self.form.note

    @property
    def unit(self) -> Unit:
        """What a bare number means in the file."""
        return self.ledger.unit

    def project(self, cushion: Cushion) -> Project:
        """The project with one kind of cushion, as many as wanted.

        Raises:
            ProjectError: the frame of the file does not go with this cushion.
        """
        ledger = self.ledger.branch()
        frame, lumber = read_frame(ledger, self.form.frame, (cushion,))
        shop = read_shop(ledger, self.form.shop, frame, lumber)
        ledger.settle()
        return Project(
            title=self.title,
            unit=ledger.unit,
            room=self.room,
            cushions=(cushion,),
            wish=self.wish,
            frame=frame,
            shop=shop,
            file=self.path,
            note=self.note,
            places=ledger.tree.places,
            findings=ledger.findings(),
        )

    def candidates(self, rows: Sequence[Row]) -> tuple[Candidate, ...]:
        """Each row with its project, or with the reason why there is none."""
        return tuple(self._candidate(row) for row in rows)

    def _candidate(self, row: Row) -> Candidate:
        try:
            return Candidate(row, self.project(row.cushion))
        except ProjectError as error:
            wrong = [finding for finding in error.findings if finding.severity is Severity.ERROR]
            return Candidate(row, None, "; ".join(finding.message for finding in wrong))
