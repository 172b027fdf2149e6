"""Runs the work of a command and turns whatever happens into an exit code."""

from __future__ import annotations

import gc
import json
import sys
from collections.abc import Callable
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
        code = work()
        sys.stdout.flush()
    except KeyboardInterrupt:
        code = INTERRUPTED
        _fail("unknown", "interrupted", "interrupted", as_json)
    except BrokenPipeError:
        # The reader of our output went away, and there is nobody left to tell.
        code = 141
        sys.stderr.close()
    except OSError as error:
        code = WRONG
        where = f" `{error.filename}`" if error.filename else ""
        _fail("invalid", "cannot-write", f"cannot write{where}: {(error.strerror or str(error)).lower()}", as_json)
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


def _fail(outcome: str, code: str, message: str, as_json: bool) -> None:
    print(f"fitter: error[{code}]: {message}", file=sys.stderr)
    if as_json:
        show_failure(outcome, code, message)


def show_failure(outcome: str, code: str, message: str) -> None:
    """Print the JSON document of a command that came to no result."""
    errors = [{"code": code, "message": message, "key": "", "file": None, "line": None, "column": None, "help": ""}]
    document = {"schema": 1, "units": None, "outcome": outcome, "layouts": [], "errors": errors}
    print(json.dumps(document, indent=1))
