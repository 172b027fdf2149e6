"""Flags that several commands share, and what is asked of their values; loaded for every `--help`: nothing heavy."""

from __future__ import annotations

import os
from math import isfinite
from typing import Annotated, NoReturn

import typer

PAPERS = ("A4", "A3", "Letter", "Tabloid")
FINEST = (16, 32, 64)
MOST_LAYOUTS = 20

File = Annotated[str, typer.Argument(metavar="FILE", help="The project file, in YAML.", show_default=False)]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document instead of tables.")]
NoPlan = Annotated[bool, typer.Option("--no-plan", help="Draw nothing.")]
Denominator = Annotated[int, typer.Option(metavar="16|32|64", help="Finest fraction of an inch.")]
Quiet = Annotated[bool, typer.Option("--quiet", help="Show no progress.")]
Debug = Annotated[bool, typer.Option("--debug", help="Show the whole traceback of a mistake of ours.")]


def refuse(flag: str, message: str) -> NoReturn:
    """End with a usage error that names the flag."""
    raise typer.BadParameter(message, param_hint=f"'{flag}'")


def layout_number(value: object) -> int:
    """How many layouts, or which one, as a parser of an option."""
    text = str(value)  # the default comes as a number
    if not (text.isascii() and text.isdigit() and 1 <= int(text[:9]) <= MOST_LAYOUTS):
        message = f"`{text}` is not a whole number from 1 to {MOST_LAYOUTS}"
        raise typer.BadParameter(message)
    return int(text)


def check_seconds(value: float | None, flag: str = "--time") -> None:
    """A time limit is above zero, and finite."""
    if value is not None and not (isfinite(value) and value > 0):
        refuse(flag, f"{value:g} is not a number of seconds above zero")


def check_denominator(value: int) -> None:
    """Tapes are divided so finely, and no finer."""
    if value not in FINEST:
        refuse("--denominator", f"{value} is not 16, 32 or 64")


def paper_named(text: str | None) -> str | None:
    """A paper as it is called, however it was written."""
    found = next((paper for paper in PAPERS if text is not None and paper.lower() == text.lower()), None)
    if text is not None and found is None:
        refuse("--sheet", f"`{text}` is not one of {', '.join(PAPERS)}")
    return found


def silent(quiet: bool, json: bool) -> bool:
    """Whether no progress is shown."""
    return quiet or json or bool(os.environ.get("FITTER_NO_PROGRESS"))
