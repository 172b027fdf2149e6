"""Where a starter file is put, and what of an interview is kept when it stops early."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

_MARK = "# An unfinished project: `fitter new` with the name of this file goes on where it stopped."
_SEAL = "#= "
_ANSWER = "#> "


@dataclass(frozen=True)
class Target:
    """The file to be written.

    Args:
        path: as the user wrote it.
        answers: of the draft that it holds.
    """

    path: Path
    answers: dict[str, str] = field(default_factory=dict)


class TargetError(Exception):
    """A file that must not be written to, or cannot be; `help` says what would be right, `code` is kebab-case."""

    def __init__(self, message: str, help: str, code: str) -> None:
        super().__init__(message)
        self.help = help
        self.code = code


def open_target(path: Path, *, force: bool) -> Target:
    """Look at the place where a file is to be written, before anything is asked.

    Args:
        path: as the user wrote it.
        force: whether a file that is there may be lost.

    Raises:
        TargetError: there is such a file already and it is no draft as this program left it; or there is no folder
            that it could be written to.
    """
    _check_folder(path)
    text = path.read_bytes().decode("utf-8", errors="replace") if path.exists() else None
    if text is None or force:
        return Target(path)
    if not text.startswith(_MARK):
        message, help = f"`{path}` is there already", "name another file, or write over it with `--force`"
        raise TargetError(message, help, "file-exists")
    if _seal(text) not in text.splitlines():
        message = f"the draft `{path}` was edited after it was left"
        help = "finish it by hand and take away its first line, or begin anew with `--force`"
        raise TargetError(message, help, "draft-edited")
    return Target(path, _answers(text))


def _check_folder(path: Path) -> None:
    folder = path.parent
    if not folder.is_dir():
        message = f"there is no folder `{folder}`"
        raise TargetError(message, "make it first, or name another file", "no-folder")
    if path.is_dir():
        message = f"`{path}` is a directory"
        raise TargetError(message, f"name a file in it, such as `{path / 'patio.yaml'}`", "file-is-directory")
    if not os.access(folder, os.W_OK):
        message = f"no file can be written in `{folder}`"
        raise TargetError(message, "name a file in another folder", "cannot-write")


def draft(body: str, answers: Mapping[str, str], remaining: str) -> str:
    """A project file that is not finished, with the answers so far.

    Args:
        body: what is settled, as a starter file.
        answers: key of each question to its answer.
        remaining: what is still to be taped or answered.
    """
    kept = [f"{_ANSWER}{key}: {json.dumps(answer, ensure_ascii=False)}" for key, answer in answers.items()]
    lines = [_MARK, f"# {remaining}", "", body.rstrip("\n"), "", "# The answers so far, for `fitter new`:", *kept]
    text = "\n".join(lines) + "\n"
    return f"{text}{_seal(text)}\n"


def _seal(text: str) -> str:
    """A line that tells whether anything above it was changed."""
    above = "\n".join(line for line in text.splitlines() if not line.startswith(_SEAL))
    return _SEAL + sha256(above.encode()).hexdigest()[:16]


def _answers(text: str) -> dict[str, str]:
    kept = (line.removeprefix(_ANSWER).partition(": ") for line in text.splitlines() if line.startswith(_ANSWER))
    return {key: json.loads(answer) for key, _, answer in kept}


def write_whole(path: Path, text: str) -> None:
    """Write a file whole or not at all: under another name beside it, then renamed.

    Raises:
        OSError: it cannot be written; what was there before is still there.
    """
    path = Path(os.path.realpath(path))
    fresh = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        with open(fresh, "x", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        os.replace(fresh, path)
    except OSError:
        with suppress(OSError):
            fresh.unlink()
        raise
