"""The command line. Heavy libraries are imported inside the commands, so that help answers at once."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NoReturn

import typer

if TYPE_CHECKING:
    from fitter.domain.findings import ProjectError
    from fitter.domain.project import Project

app = typer.Typer(add_completion=True, no_args_is_help=True, pretty_exceptions_enable=False)
EXITS = {"proven": 0, "impossible": 1, "found": 3, "unknown": 3, "fault": 70}
File = Annotated[str, typer.Argument(help="a project file (YAML)")]


@app.callback()
def about() -> None:
    """Fit outdoor sectional seating from shop cushions into a taped room."""


@app.command()
def fit(
    file: File,
    json: Annotated[bool, typer.Option("--json", help="print one JSON document")] = False,
    out: Annotated[Path | None, typer.Option(help="folder for the plan; default: here, none with --json")] = None,
    time: Annotated[float | None, typer.Option(min=0.001, help="seconds to search at most")] = None,
) -> None:
    """Find the best layout, prove it, and draw the plan."""
    from json import dumps

    from fitter.report.document import fit_document
    from fitter.report.tables import print_fit
    from fitter.report.terminal import aside, result
    from fitter.workflow.fitting import fit as solve

    project = _read(file)
    found = solve(project, time)
    if json:
        print(dumps(fit_document(project, found), indent=1))
    else:
        print_fit(result(), project, found)
    if found.layout is not None and not found.checked and (out is not None or not json):
        from fitter.workflow.picturing import write_plan  # draws: a second that --json need not wait

        for path in write_plan(project, found.layout, out or Path(), verdict=str(found.verdict)):
            aside().print(f"wrote {path}", soft_wrap=True)
    raise typer.Exit(EXITS[found.verdict])


@app.command()
def measure(file: File) -> None:
    """Close the tape readings and show how far they can be trusted."""
    from fitter.domain.findings import ProjectError
    from fitter.project import read_room
    from fitter.report.terminal import result
    from rooms.lengths import format_length

    try:
        reading = read_room(file)
    except ProjectError as error:
        _refuse(error, file)
    out = result()
    for name, point in reading.room.corners:
        out.print(f"{name}  {format_length(point.x, reading.unit)}, {format_length(point.y, reading.unit)}")
    survey = reading.survey
    if survey is not None and survey.misclosure is not None:
        out.print(f"misclosure {format_length(survey.misclosure, reading.unit, denominator=64)}")


def _read(file: str) -> Project:
    from fitter.domain.findings import ProjectError
    from fitter.project import read_project

    try:
        return read_project(file)
    except ProjectError as error:
        _refuse(error, file)


def _refuse(error: ProjectError, file: str) -> NoReturn:
    from fitter.report.mistakes import mistakes_text
    from fitter.report.terminal import aside

    try:
        lines = Path(file).read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        lines = []
    aside().print(mistakes_text(error, lines), soft_wrap=True)
    raise typer.Exit(2)


def main() -> None:
    """Run the command line; our own mistakes exit with 70, an interruption with 130."""
    try:
        app()
    except KeyboardInterrupt:
        raise SystemExit(130) from None
    except Exception as error:
        print(f"fitter: our own mistake: {type(error).__name__}: {error}", file=sys.stderr)
        raise SystemExit(70) from error
