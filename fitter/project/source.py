"""The file as text: found, read whole, and decoded, or a clear word about why not."""

from __future__ import annotations

import os

from fitter.domain.findings import Finding, Place, ProjectError

LARGEST = 1_000_000
"""Bytes; a project file of a large room has a few thousand."""


def read_text(path: str) -> str:
    """The text of a project file.

    Args:
        path: as the user wrote it.

    Returns:
        The text, without a byte order mark.

    Raises:
        ProjectError: there is no such file, it cannot be read, or it is no UTF-8 text.
    """
    data = _bytes(path)
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise _unreadable(path, "not-utf8", "the file is saved as UTF-16", "save it as UTF-8")
    if b"\0" in data:
        help = "give the YAML file that describes the project"
        raise _unreadable(path, "not-text", "the file is binary, not text", help)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        column = error.start - data.rfind(b"\n", 0, error.start)
        message = f"byte {error.start + 1} is not UTF-8 text"
        raise _unreadable(path, "not-utf8", message, "save the file as UTF-8", Place(line, column)) from None
    if not text.strip():
        raise empty_file(path, "the file is empty")
    return text


def empty_file(path: str, message: str) -> ProjectError:
    """The refusal of a file that says nothing."""
    return _unreadable(path, "file-empty", message, "begin with `title`, `units`, `room` and `cushions`")


def _bytes(path: str) -> bytes:
    try:
        if os.path.isdir(path):
            raise _unreadable(path, "file-is-directory", "this is a directory", "give the file inside it")
        with open(path, "rb") as file:
            data = file.read(LARGEST + 1)
    except FileNotFoundError:
        help = "check the spelling and the directory you are in"
        raise _unreadable(path or "''", "file-missing", "there is no such file", help) from None
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or str(error)).lower()
        message = f"the file cannot be read: {reason}"
        raise _unreadable(path, "file-unreadable", message, "check the path and its permissions") from None
    if len(data) > LARGEST:
        message = f"the file is bigger than {LARGEST // 1_000_000} MB"
        raise _unreadable(path, "file-huge", message, "give the YAML file that describes the project")
    return data


def _unreadable(path: str, code: str, message: str, help: str, place: Place | None = None) -> ProjectError:
    return ProjectError(path, (Finding(code, message, place=place, help=help),))
