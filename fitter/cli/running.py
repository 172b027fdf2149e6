"""Runs the work of a command and turns whatever happens into an exit code."""

from __future__ import annotations

import gc
import json
import os
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import NoReturn

PROVEN, NO_FIT, WRONG, TIME_UP, OURS, INTERRUPTED = 0, 1, 2, 3, 70, 130


class Done(SystemExit):
    """A command that has told its result in full."""


def run(work: Callable[[], int], *, as_json: bool, debug: bool) -> NoReturn:
    """Do the work of a command.

    Args:
        work: prints its result and returns an exit code.
        as_json: whether a JSON document is due even if the work fails.
        debug: whether to let a mistake of ours through with its traceback.

    Raises:
        Done: always, with the exit code.
    """
    # A command lives for seconds and its values form no cycles worth looking for every few hundred objects.
    gc.set_threshold(100_000, 50, 50)
    try:
        with _hangup_interrupts():
            code = work()
            sys.stdout.flush()
    except KeyboardInterrupt:
        code = INTERRUPTED
        _fail("unknown", "interrupted", "stopped by you, before there was a result", as_json)
    except BrokenPipeError:
        # The reader of our output went away, and there is nobody left to tell.
        code = 141
        sys.stderr.close()
    except OSError as error:
        code = WRONG
        _fail("invalid", "cannot-write", unwritten(error), as_json)
    except Exception as error:
        if debug:
            # Python prints it; the exit code is set where it is caught, below.
            import traceback  # costs start-up time, and is wanted only here

            traceback.print_exc()
        code = OURS
        told = f"{type(error).__name__}: {error}".splitlines()[0]
        _fail("fault", "internal", f"a mistake of ours: {told}", as_json)
        if not debug:
            print("  help: run it again with `--debug`, and report what that prints", file=sys.stderr)
    raise Done(code)


@contextmanager
def _hangup_interrupts() -> Iterator[None]:
    """Let a closed window or a request to end do what Ctrl-C does: the solver's process ends too, answers are kept."""

    def interrupt(number: int, frame: object) -> None:
        raise KeyboardInterrupt

    numbers = [number for name in ("SIGHUP", "SIGTERM") if (number := getattr(signal, name, None)) is not None]
    # What is ignored, as under `nohup`, stays ignored.
    before = {number: signal.getsignal(number) for number in numbers}
    heard = [number for number in numbers if before[number] == signal.SIG_DFL]
    for number in heard:
        signal.signal(number, interrupt)
    try:
        yield
    finally:
        for number in heard:
            signal.signal(number, before[number])


def unwritten(error: OSError) -> str:
    """What to say of a file, or of standard output, that takes no more."""
    where = f" `{error.filename}`" if error.filename else ""
    return f"cannot write{where}: {(error.strerror or str(error)).lower()}"


def discard_output() -> None:
    """Leave nothing that Python would try to write on its way out."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _fail(outcome: str, code: str, message: str, as_json: bool) -> None:
    print(f"fitter: error[{code}]: {message}", file=sys.stderr)
    if not as_json:
        return
    try:
        show_failure(outcome, code, message)
        sys.stdout.flush()
    except OSError:
        discard_output()  # standard output takes no document; standard error has said why


def show_failure(outcome: str, code: str, message: str) -> None:
    """Print the JSON document of a command that came to no result."""
    errors = [{"code": code, "message": message, "key": "", "file": None, "line": None, "column": None, "help": ""}]
    document = {"schema": 1, "units": None, "outcome": outcome, "layouts": [], "errors": errors}
    print(json.dumps(document, indent=1))
