"""What `fitter new` does once its flags are read."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fitter.cli.running import PROVEN, WRONG
from fitter.cli.starting.asking import InputEndedError, Interview
from fitter.cli.starting.drafts import Target, TargetError, draft, open_target, write_whole
from fitter.cli.starting.flags import Flags, answers, taken, told_of_flags
from fitter.cli.starting.questions import interview
from fitter.cli.starting.sheet import mistakes
from fitter.domain.findings import Finding, ProjectError
from fitter.project import RoomReading, read_room
from fitter.project.writing import starter_text
from fitter.report.document import Document, refusal_document, written
from fitter.report.survey_document import survey_document
from rooms.survey.wording import listed


@dataclass(frozen=True)
class Call:
    """What was asked on the command line.

    Args:
        file: the file to be written.
        flags: what is known of the project.
        ask: whether to ask even where standard input is no terminal.
        force: whether a file that is there may be lost.
        as_json: whether a document is printed instead of the name of the file.
    """

    file: Path
    flags: Flags
    ask: bool
    force: bool
    as_json: bool


def start_file(call: Call) -> int:
    """Write a starter file.

    Args:
        call: what was asked.

    Returns:
        The exit code.

    Raises:
        KeyboardInterrupt: the interview stopped early; what was answered is kept.
        OSError: the file cannot be written.
    """
    given = taken(call.flags)
    asks = call.ask or (not call.flags.outline and sys.stdin.isatty())
    try:
        if given.findings:
            raise ProjectError(str(call.file), tuple(given.findings))
        if not asks and not call.flags.outline:
            raise ProjectError(str(call.file), (_NO_OUTLINE,))
        target = open_target(call.file, force=call.force)
        data = _asked(target, given.data) if asks else _given(target, given.data, given.given)
    except ProjectError as error:
        return _refuse(error, as_json=call.as_json)
    except TargetError as error:
        finding = Finding(error.code, str(error), help=error.help)
        return _refuse(ProjectError(str(call.file), (finding,)), as_json=call.as_json)
    _finish(call, target.path, data)
    return PROVEN


_NO_OUTLINE = Finding(
    "no-outline",
    "no outline is given, and standard input is no terminal, so nothing can be asked",
    help="give `--rectangle 16ftx11ft`, or each side as `--side AB=16ft` with `--turn` or `--tie`; or ask with `--ask`",
)


def _given(target: Target, data: dict[str, Any], given: dict[str, str]) -> dict[str, Any]:
    """What flags alone say."""
    if target.answers:
        message = f"`{target.path}` holds a draft"
        help = f"go on with it by `fitter new {target.path}`, or begin anew with `--force`"
        raise TargetError(message, help, "file-exists")
    data = {"title": target.path.stem, "units": "in", **data}
    error = mistakes(data, str(target.path))
    if error is not None:
        raise told_of_flags(error, given)
    return data


def _asked(target: Target, data: dict[str, Any]) -> dict[str, Any]:
    """What the user answers, beginning with what a draft or flags know."""
    talk = Interview(interview, str(target.path), {**target.answers, **answers(data)})
    if target.answers:
        talk.terminal.say(f"Going on with the draft {target.path}: {len(target.answers)} answers are kept.")
    try:
        return talk.conduct().data
    except (KeyboardInterrupt, InputEndedError):
        _keep(target, talk)
        raise KeyboardInterrupt from None


def _keep(target: Target, talk: Interview) -> None:
    """Leave a draft, if anything was answered."""
    talk.terminal.say()
    if not talk.answers:
        return
    remaining = talk.settle()
    key = talk.pending.key.rpartition(".")[0] if talk.pending is not None else ""
    text = draft(starter_text(talk.sheet.data, str(target.path), {key: remaining}), talk.answers, remaining)
    try:
        write_whole(target.path, text)
    except OSError:
        # Better on the screen than lost.
        print(text, file=sys.stderr)
        raise
    talk.terminal.say(f"The answers so far are in {target.path}; `fitter new {target.path}` goes on from there.")


def _finish(call: Call, path: Path, data: dict[str, Any]) -> None:
    """Write the file, say where it is, and what to do with it."""
    remarks = _remarks(read_room(str(path), starter_text(data, str(path))))
    text = starter_text(data, str(path), remarks)
    try:
        write_whole(path, text)
    except OSError:
        print(text, file=sys.stderr)
        raise
    for remark in remarks.values():
        print(remark, file=sys.stderr)
    if "cushions" not in data:
        print("Still to be named in it: the cushions.", file=sys.stderr)
    if call.as_json:
        print(written(_document(read_room(str(path), text))))
    else:
        print(path)


def _document(reading: RoomReading) -> Document:
    """The file, and what its readings are worth, in the words of `fitter measure`."""
    survey = survey_document(reading)
    keys = ("schema", "units", "outcome", "title", "file", "unchecked", "next_tie", "findings")
    return {key: survey[key] for key in keys if key in survey}


def _remarks(reading: RoomReading) -> dict[str, str]:
    """What the readings still lack, for the place in the file where it belongs."""
    survey = reading.survey
    if survey is None or survey.next_tie is None:
        return {}
    return {"room.ties": f"Worth taping too: {survey.next_tie}, to check {listed(survey.unchecked)}."}


def _refuse(error: ProjectError, *, as_json: bool) -> int:
    """Tell what is wrong with the call."""
    if as_json:
        print(written(refusal_document(error)))
    for finding in error.findings:
        print(f"fitter: error[{finding.code}]: {finding.message}", file=sys.stderr)
        if finding.help:
            print(f"  help: {finding.help}", file=sys.stderr)
    return WRONG
