"""Whatever happens in a command ends in the right exit code, with the right words on the right stream."""

from __future__ import annotations

import json
import os
import pty
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from fitter.cli.running import Done, run

ROOT = Path(__file__).parents[3]
EXAMPLES = ROOT / "examples"
HEAVY = ("z3", "shapely", "numpy", "matplotlib", "fontTools", "pydantic", "ruamel")
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT)}


def raising(error: BaseException) -> Callable[[], int]:
    def work() -> int:
        raise error

    return work


def ended(work: Callable[[], int], *, as_json: bool = False, debug: bool = False) -> int:
    with pytest.raises(Done) as stop:
        run(work, as_json=as_json, debug=debug)
    assert isinstance(stop.value.code, int)
    return stop.value.code


def python(*words: str, **more: object) -> subprocess.CompletedProcess[str]:
    call = [sys.executable, *words]
    return subprocess.run(call, cwd=ROOT, env={**ENVIRONMENT, **more}, capture_output=True, text=True, check=False)


def test_code_of_the_work_is_the_exit_code() -> None:
    assert [ended(lambda code=code: code) for code in (0, 1, 3)] == [0, 1, 3]


def test_interruption_is_130_and_still_a_document(capsys: pytest.CaptureFixture[str]) -> None:
    assert ended(raising(KeyboardInterrupt()), as_json=True) == 130
    assert json.loads(capsys.readouterr().out)["errors"][0]["code"] == "interrupted"


def test_mistake_of_ours_is_one_line_and_a_hint(capsys: pytest.CaptureFixture[str]) -> None:
    assert ended(raising(RuntimeError("a wheel\ncame off"))) == 70
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.splitlines()[0] == "fitter: error[internal]: a mistake of ours: RuntimeError: a wheel"
    assert "--debug" in told.err
    assert "Traceback" not in told.err


def test_debug_shows_the_traceback(capsys: pytest.CaptureFixture[str]) -> None:
    assert ended(raising(RuntimeError("a wheel came off")), debug=True) == 70
    assert "Traceback" in capsys.readouterr().err


def test_file_that_cannot_be_written_is_the_callers_matter(capsys: pytest.CaptureFixture[str]) -> None:
    assert ended(raising(PermissionError(13, "Permission denied", "plans")), as_json=True) == 2
    told = capsys.readouterr()
    assert "cannot write `plans`: permission denied" in told.err
    assert json.loads(told.out)["outcome"] == "invalid"


@pytest.mark.parametrize("number", ["0", "21", "-1", "1.5", "two", "²"])
def test_layouts_that_cannot_be_counted_are_refused_in_plain_words(number: str) -> None:
    done = python("-m", "fitter", "fit", "examples/landing.yaml", "--layouts", number, COLUMNS="80")
    assert (done.returncode, done.stdout) == (2, "")
    assert f"`{number}` is not a whole number from 1 to 20" in done.stderr


FULL = Path("/dev/full")


@pytest.mark.skipif(not FULL.exists(), reason="this system has no device that is always full")
@pytest.mark.parametrize(
    "words",
    [("--help",), ("measure", "examples/garden-wall.yaml"), ("measure", "examples/garden-wall.yaml", "--json")],
    ids=" ".join,
)
def test_output_that_takes_no_more_is_told_in_one_line(words: tuple[str, ...]) -> None:
    call = [sys.executable, "-m", "fitter", *words]
    with FULL.open("w") as full:
        done = subprocess.run(call, cwd=ROOT, env=ENVIRONMENT, stdout=full, stderr=subprocess.PIPE, text=True)
    assert done.returncode == 2
    assert done.stderr == "fitter: error[cannot-write]: cannot write: no space left on device\n"


def test_closed_output_is_no_mistake_of_ours() -> None:
    code = (
        "import sys; sys.stdout = None; sys.argv = ['fitter', 'measure', 'examples/garden-wall.yaml', '--json']\n"
        "import fitter.cli; fitter.cli.main()"
    )
    done = python("-c", code)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_request_to_end_is_an_interruption(capsys: pytest.CaptureFixture[str]) -> None:
    def work() -> int:
        signal.raise_signal(signal.SIGTERM)
        return 0

    before = signal.getsignal(signal.SIGTERM)
    assert ended(work) == 130
    assert "stopped by you" in capsys.readouterr().err
    assert signal.getsignal(signal.SIGTERM) is before


def test_wrong_call_with_json_gives_a_document() -> None:
    done = python("-m", "fitter", "fit", "examples/deck.yaml", "--json", "--time", "-1")
    assert done.returncode == 2
    assert json.loads(done.stdout)["errors"][0]["code"] == "usage"
    assert "above zero" in done.stderr


def test_same_call_gives_the_same_bytes_under_another_hash_seed() -> None:
    words = ("-m", "fitter", "fit", "examples/terrace-mm.yaml", "--json")
    one, other = (python(*words, PYTHONHASHSEED=seed) for seed in ("1", "4711"))
    assert one.returncode == 0
    assert one.stdout == other.stdout


def loaded(*words: str) -> set[str]:
    """Libraries that a call has loaded when it ends."""
    code = (
        "import sys, io, contextlib, fitter.cli\n"
        f"sys.argv = ['fitter', *{words!r}]\n"
        "with contextlib.redirect_stdout(io.StringIO()):\n"
        "    try: fitter.cli.main()\n"
        "    except SystemExit: pass\n"
        "print(*sorted({name.partition('.')[0] for name in sys.modules}))"
    )
    done = python("-c", code)
    assert done.returncode == 0, done.stderr
    return set(done.stdout.split())


@pytest.mark.parametrize("words", [("--help",), ("--version",)])
def test_answers_at_once_load_no_heavy_library(words: tuple[str, ...]) -> None:
    assert not loaded(*words) & set(HEAVY)


@pytest.mark.parametrize("words", [("fit", "--help"), ("measure", "--help"), ("--show-completion", "bash")])
def test_other_answers_load_only_what_typer_loads_itself(words: tuple[str, ...]) -> None:
    """Typer reads the types of options with pydantic as soon as a command has any."""
    assert not loaded(*words) & (set(HEAVY) - {"pydantic"})


def test_json_loads_no_picture_library_and_measure_no_solver() -> None:
    fit = loaded("fit", "examples/garden-wall.yaml", "--json")
    assert "z3" in fit
    assert not fit & {"matplotlib", "fontTools"}
    measure = loaded("measure", "examples/garden-wall.yaml")
    assert "pydantic" in measure
    assert not measure & {"z3", "matplotlib", "fontTools"}


def at_terminal(*words: str, **more: str) -> str:
    """What a call writes to standard error when that is a terminal."""
    leader, follower = pty.openpty()
    call = [sys.executable, "-m", "fitter", *words]
    environment = {**ENVIRONMENT, "TERM": "xterm", **more}
    subprocess.run(call, cwd=ROOT, env=environment, stdout=subprocess.DEVNULL, stderr=follower, check=True)
    os.close(follower)
    told = b""
    # A terminal without a writer answers with an error rather than with an end.
    while chunk := _read(leader):
        told += chunk
    os.close(leader)
    return told.decode()


def _read(leader: int) -> bytes:
    try:
        return os.read(leader, 65536)
    except OSError:
        return b""


def test_progress_is_shown_at_a_terminal_only_and_can_be_silenced() -> None:
    words = ("fit", "examples/courtyard.yaml", "--no-plan")
    assert "best so far" in at_terminal(*words)
    assert at_terminal(*words, "--quiet") == ""
    assert at_terminal(*words, FITTER_NO_PROGRESS="1") == ""
    assert at_terminal(*words, "--json") == ""


def test_reader_that_goes_away_ends_quietly() -> None:
    call = f"{sys.executable} -m fitter fit examples/courtyard.yaml --json"
    code = f"{call} | head -c 10 >/dev/null; echo ${{PIPESTATUS[0]}}"
    done = subprocess.run(["bash", "-c", code], cwd=ROOT, env=ENVIRONMENT, capture_output=True, text=True, check=True)
    assert done.stderr == ""
    assert done.stdout.strip() in ("0", "141")
