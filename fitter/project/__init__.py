"""Reads a project file into a `Project`, or says everything that is wrong with it at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from fitter.domain.findings import Finding, Place, ProjectError
from fitter.domain.project import Project
from fitter.project.cushions import read_cushions
from fitter.project.forms import ProjectForm
from fitter.project.ledger import Ledger
from fitter.project.room import read_room_section
from fitter.project.source import empty_file, read_text
from fitter.project.tree import Tree, read_tree
from fitter.project.units import read_units
from fitter.project.wish import read_wish
from fitter.project.wood import read_frame, read_shop
from rooms.lengths import Unit
from rooms.room import Room
from rooms.survey import Survey

__all__ = ["ProjectError", "RoomReading", "open_project", "project_of", "read_project", "read_room"]


@dataclass(frozen=True)
class RoomReading:
    """The room of a file, for those who only want to know whether their readings close.

    Args:
        title: for headings.
        unit: what a bare number means; also the system for printing.
        room: the room.
        survey: the adjusted survey; None when the file gives coordinates.
        file: the path as the user wrote it.
        findings: cautions and notes that reading gave rise to.
        places: key path to its place in the file.
        note: a line for drawings; empty if none.
    """

    title: str
    unit: Unit
    room: Room
    survey: Survey | None
    file: str = ""
    findings: tuple[Finding, ...] = ()
    places: Mapping[str, Place] = field(default_factory=dict)
    note: str = ""


def read_project(path: str, text: str | None = None) -> Project:
    """Read a whole project file.

    Args:
        path: of a YAML 1.2 file, as the user wrote it.
        text: what the file will hold, where it is not written yet; None to read the file.

    Returns:
        The project, complete with defaults; cautions and notes are in its findings.

    Raises:
        ProjectError: the file cannot be used; every mistake that can be told is in it, in file order.
    """
    return _whole(*open_project(path, text))


def project_of(tree: Tree) -> Project:
    """The project that a file says which has been read already.

    Raises:
        ProjectError: as for `read_project`.
    """
    return _whole(*_opened(tree))


def _whole(ledger: Ledger, form: ProjectForm) -> Project:
    room, _, names = read_room_section(ledger, form.room)
    path = ledger.tree.file
    cushions = read_cushions(ledger, form.cushions)
    wish = read_wish(ledger, form.wish, names)
    frame, lumber = read_frame(ledger, form.frame, cushions)
    shop = read_shop(ledger, form.shop, frame, lumber)
    ledger.settle()
    assert room is not None, "a room without mistakes has been built"
    return Project(
        title=form.title or Path(path).stem,
        unit=ledger.unit,
        room=room,
        cushions=cushions,
        wish=wish,
        frame=frame,
        shop=shop,
        file=path,
        note=form.note,
        places=ledger.tree.places,
        findings=ledger.findings(),
    )


def read_room(path: str, text: str | None = None) -> RoomReading:
    """Read only title, units and room of a project file; its other sections may be missing or unfinished.

    Args:
        path: of a YAML 1.2 file, as the user wrote it.
        text: what the file will hold, where it is not written yet; None to read the file.

    Returns:
        The room with its survey.

    Raises:
        ProjectError: this part of the file cannot be used; `disagree` when only the tape readings
            contradict each other.
    """
    ledger, form = open_project(path, text)
    room, survey, _ = read_room_section(ledger, form.room)
    ledger.settle()
    assert room is not None, "a room without mistakes has been built"
    title = form.title or Path(path).stem
    return RoomReading(title, ledger.unit, room, survey, path, ledger.findings(), ledger.tree.places, form.note)


def open_project(path: str, text: str | None) -> tuple[Ledger, ProjectForm]:
    """The top of a project file, with the unit of bare numbers settled; see `read_project`."""
    return _opened(read_tree(read_text(path) if text is None else text, path))


def _opened(tree: Tree) -> tuple[Ledger, ProjectForm]:
    if tree.data is None:
        raise empty_file(tree.file, "there are no keys in the file")
    ledger = Ledger(tree)
    form = ledger.form(ProjectForm, ledger.tree.data, "")
    if form is None:
        ledger.settle()
    assert form is not None, "a mapping at the top always has a form"
    read_units(ledger, form.units)
    return ledger, form
