"""`fitter new`: nothing that was answered is lost, every answer can be corrected, and the file it writes is sound."""

from __future__ import annotations

import io
import json
import math
import os
import pty
import re
import signal
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from calling import ROOT, call
from hypothesis import given, settings
from hypothesis import strategies as st
from survey_cases import NAMES, Spot, outlines

from fitter.cli import main
from fitter.cli.starting.asking import InputEndedError, Interview, Terminal
from fitter.cli.starting.questions import interview
from fitter.project import read_project, read_room
from fitter.project.writing import starter_text
from rooms.geometry import signed_area
from rooms.lengths import Length, Unit

ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT)}

YARD = (
    ("Title", "Back yard"),
    ("What a bare number means", "ft"),
    ("Side AB", "16' 4\""),
    ("Side BC", "11"),
    ("Side from C", "16' 4\""),
    ("Side from D", "close 11"),
    ("At B", "l"),
    ("At C", "left"),
    ("Tie AC", "19' 8 1/4\""),
    ("along BC", "railing"),
    ("along CD", "o"),
    ("A door or gate", "back door"),
    ("The edge that `back door`", "AB"),
    ("How far along AB", "2"),
    ("Its clear width", "32 in"),
    ("Its leaf", "in"),
    ("Its hinges", "B"),
    ("Another door or gate", "gate"),
    ("The edge that `gate`", "CD"),
    ("How far along CD", "2"),
    ("Its clear width", "3"),
    ("A thing that seats stay off", "bowl"),
    ("The shape of `bowl`", "round"),
    ("Its centre", "8 x 6"),
    ("Its radius", "16 in"),
    ("It burns openly", "y"),
    ("How far seats keep", "30 in"),
    ("Another thing", "drain"),
    ("The shape of `drain`", "rect"),
    ("Its corner", "14 x 9"),
    ("Its size along", "6in x 6in"),
    ("It stands in the way", "low"),
    ("A hole", "tree well"),
    ("The shape of `tree well`", "corners"),
    ("Its corners", "1' x 9'; 2' x 9'; 2' x 10'"),
    ("A walkway", "gate"),
    ("How wide it is to stay", "30 in"),
    ("A kind of cushion", '"back"'),
    ("As sold", "24in x 24in x 5in"),
    ("How many are there", "6"),
    ("Shape of the seating", "L"),
    ("Fewest seats", "2-6"),
    ("How its ends", "armed"),
    ("What holds the backs", "outside post"),
)
"""Questions and the answers to them; to every other question the answer is what stands in brackets."""


class Scripted(Terminal):
    """Answers questions by their beginnings, each answer once, and remembers what was said and heard."""

    def __init__(self, *answers: tuple[str, str], stop_after: int | None = None) -> None:
        self.waiting = list(answers)
        self.said: list[str] = []
        self.heard: list[str] = []
        self.stop_after = stop_after

    def say(self, text: str = "", indent: str = "") -> None:
        self.said.append(text)

    def hear(self) -> str:
        if len(self.heard) == (200 if self.stop_after is None else self.stop_after):
            raise InputEndedError
        answer = ""
        for number, (start, reply) in enumerate(self.waiting):
            if start in self.said[-1]:
                answer = reply
                del self.waiting[number]
                break
        self.heard.append(answer)
        return answer


def conducted(*answers: tuple[str, str], known: dict[str, str] | None = None) -> tuple[Interview, Scripted]:
    """An interview that came to its end, every answer used."""
    terminal = Scripted(*answers)
    talk = Interview(interview, "yard.yaml", known if known is not None else {}, terminal)
    talk.conduct()
    assert terminal.waiting == []
    return talk, terminal


def replies() -> list[str]:
    """What a user types for YARD, line by line."""
    return conducted(*YARD)[1].heard


def asked(lines: list[str], file: str, monkeypatch: pytest.MonkeyPatch) -> Any:
    """What `fitter new --ask` tells when lines are typed."""
    monkeypatch.setattr(sys, "stdin", io.StringIO("".join(f"{line}\n" for line in lines)))
    return call(f"fitter new {file} --ask")


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder to work in."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


# From flags


def test_flags_write_a_file_that_keeps_their_spelling(here: Path) -> None:
    told = call(
        "fitter new yard.yaml --rectangle 16'4\"x11ft --units ft --seats 2-6 --against BC "
        "--cushion name=seat,size=24inx24inx5in,own=6"
    )
    assert (told.code, told.stdout) == (0, "yard.yaml\n")
    text = (here / "yard.yaml").read_text()
    assert "sides: {AB: 16'4\", BC: 11ft, CD: 16'4\", DA: 11ft}" in text
    project = read_project("yard.yaml")
    assert (project.wish.least, project.wish.most, project.wish.against) == (2, 6, ("BC",))
    assert (project.cushions[0].own, project.title) == (6, "yard")
    assert call("fitter measure yard.yaml").code == 0


def words(*parts: str) -> subprocess.CompletedProcess[str]:
    """A call whose words may hold blanks."""
    return subprocess.run(
        [sys.executable, "-m", "fitter", "new", *parts],
        env=ENVIRONMENT, capture_output=True, text=True, check=False, stdin=subprocess.DEVNULL,
    )  # fmt: skip


def test_every_flag_reaches_its_key(here: Path) -> None:
    done = words(
        "--title", "Yard", "--note", "invented", "--units", "ft", "--tolerance", '3/8"',
        "--side", "AB=16' 4\"", "--side", "BC=11", "--side", "CD=16' 4\"", "--side", "DA=11",
        "--turn", "B=left", "--turn", "C=90", "--tie", "AC=19' 8 1/4\"", "--edge", "BC=railing",
        "--opening", "name=back door, the old one,edge=AB,from=2',width=32\",swing=in,hinge=second",
        "--opening", "name=gate,edge=CD,from=2',width=3",
        "--obstacle", "name=bowl,centre=8' x 6',radius=16in,open-flame=yes,clear=30in",
        "--obstacle", "name=bed,corners=14,9;15,9;15,10,height=full",
        "--hole", "name=well,at=1x8,size=1x1",
        "--route", "from=back door, the old one,to=gate,width=30in",
        "--cushion", "name=seat,size=24in x 24in x 5in,back=24in x 18in x 6in,price=60",
        "--shape", "L", "--seats", "2", "--hand", "left", "--ends", "armed", "--corner", "outside post",
        "--against", "AB", "--against", "BC", "--off-wall", "6in", "--legroom", "20in",
    )  # fmt: skip
    assert (done.returncode, done.stdout) == (0, "project.yaml\n"), done.stderr
    project = read_project("project.yaml")
    room, wish = project.room, project.wish
    assert (project.title, project.note, room.tolerance) == ("Yard", "invented", Length.inches("3/8"))
    assert next((o.name, str(o.swing), str(o.hinge)) for o in room.openings) == (
        "back door, the old one",
        "in",
        "second",
    )
    assert [(o.name, len(o.core), o.hole) for o in room.obstacles] == [
        ("bowl", 1, False),
        ("bed", 3, False),
        ("well", 4, True),
    ]
    assert (room.routes[0].width, str(room.edge("BC").kind)) == (Length.inches(30), "railing")
    assert (str(wish.shape), wish.least, str(wish.hand), str(wish.corner)) == ("L", 2, "left", "outside post")
    assert (wish.against, wish.off_wall, wish.legroom) == (("AB", "BC"), Length.inches(6), Length.inches(20))
    assert project.cushions[0].back is not None


@pytest.mark.parametrize(
    ("flags", "named", "remedy"),
    [
        (("--rectangle", "12 fx 10"), "`--rectangle 12 fx 10`", "write for example"),
        (("--rectangle", "12"), "`--rectangle 12`", "two lengths"),
        (("--rectangle", "12x10"), "`--rectangle 12x10`: the whole room is", "is the unit right"),
        (("--rectangle", "12x10", "--turn", "B=left"), "`--rectangle 12x10`", "leave out"),
        (("--rectangle", "12ftx10ft", "--opening", "name=d,edge=AX,from=2,width=30"), "edge=AX", "`AB`"),
        (("--rectangle", "12ftx10ft", "--opening", "name=d,edge=AB,from=2,wdth=30"), "edge=AB", "`width`"),
        (("--rectangle", "12ftx10ft", "--opening", "a door"), "`--opening a door`", "name=back door"),
        (("--rectangle", "12ftx10ft", "--cushion", "name=s,size=24x24"), "size=24x24", "three lengths"),
        (("--rectangle", "12ftx10ft", "--cushion", "name=s,name=t,size=24x24x4"), "name=s,name=t", "keep one"),
        (("--rectangle", "12ftx10ft", "--seats", "four"), "`--seats four`", "write a count"),
        (("--rectangle", "12ftx10ft", "--shape", "Z"), "`--shape Z`", "`straight`"),
        (("--rectangle", "12ftx10ft", "--tie", "AC=20ft"), "the readings disagree", "again"),
        (("--rectangle", "12ftx10ft", "--tie", "AC"), "`--tie AC`", "a value"),
        (("--rectangle", "12ftx10ft", "--units", "feet"), "`--units feet`", "`ft`"),
        (("--side", "AB=12", "--side", "AB=13"), "`--side AB=13`", "keep one"),
        (("--side", "AB=12ft", "--side", "BC=10ft", "--side", "CD=12ft", "--side", "DA=10ft"), "`--side`", "--tie"),
    ],
)  # fmt: skip
def test_a_bad_flag_is_named_with_its_value_and_what_would_be_right(
    flags: tuple[str, ...],
    named: str,
    remedy: str,
    here: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(sys, "argv", ["fitter", "new", "yard.yaml", *flags])
    with pytest.raises(SystemExit) as stop:
        main()
    told = capsys.readouterr()
    assert stop.value.code == 2
    assert told.out == ""
    assert named in told.err
    assert remedy in told.err
    assert list(here.iterdir()) == []


def test_one_wrong_rectangle_is_told_once(here: Path) -> None:
    assert call("fitter new yard.yaml --rectangle 12fx10").stderr.count("error[") == 1


def test_json_tells_the_file_and_how_far_it_can_be_trusted(here: Path) -> None:
    told = call("fitter new yard.yaml --rectangle 16ftx11ft --json")
    document = json.loads(told.stdout)
    assert (document["schema"], document["outcome"], document["file"]) == (1, "found", "yard.yaml")
    assert document["next_tie"] == "AC"
    measured = json.loads(call("fitter measure yard.yaml --json").stdout)
    assert {key: measured[key] for key in document} == document
    wrong = json.loads(call("fitter new other.yaml --rectangle 16ft --json").stdout)
    assert (wrong["outcome"], wrong["errors"][0]["code"]) == ("invalid", "bad-flag")


def test_without_outline_and_terminal_nothing_can_be_asked(here: Path) -> None:
    told = call("fitter new yard.yaml --title Yard")
    assert (told.code, told.stdout, list(here.iterdir())) == (2, "", [])
    assert "--rectangle" in told.stderr


def test_help_loads_nothing_heavy() -> None:
    code = (
        "import sys, fitter.cli\nsys.argv = ['fitter', 'new', '--help']\n"
        "try: fitter.cli.main()\nexcept SystemExit: pass\n"
        "print(sorted({'z3', 'shapely', 'numpy', 'matplotlib', 'ruamel'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], env=ENVIRONMENT, capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


# Files that are there already


def test_a_file_is_never_written_over_unless_forced(here: Path) -> None:
    (here / "yard.yaml").write_text("mine")
    for command in ("fitter new yard.yaml --rectangle 16ftx11ft", "fitter new yard.yaml --ask"):
        told = call(command)
        assert (told.code, told.stdout) == (2, "")
        assert "--force" in told.stderr
        assert (here / "yard.yaml").read_text() == "mine"
    assert call("fitter new yard.yaml --rectangle 16ftx11ft --force").code == 0
    assert [path.name for path in here.iterdir()] == ["yard.yaml"]
    assert read_room("yard.yaml").title == "yard"


def test_a_place_that_cannot_be_written_to_is_told_before_anything_is_asked(here: Path) -> None:
    (here / "folder").mkdir()
    for file, code in (("folder", "file-is-directory"), ("nowhere/yard.yaml", "no-folder")):
        told = call(f"fitter new {file} --ask")
        assert told.code == 2
        assert f"error[{code}]" in told.stderr
        assert "Title" not in told.stderr


# By asking


def test_answers_make_the_file_that_they_say(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    told = asked(replies(), "yard.yaml", monkeypatch)
    assert (told.code, told.stdout) == (0, "yard.yaml\n"), told.stderr
    project = read_project("yard.yaml")
    room, wish = project.room, project.wish
    assert [str(edge.kind) for edge in room.edges] == ["wall", "railing", "open", "wall"]
    assert [(o.name, str(o.swing), str(o.hinge)) for o in room.openings] == [
        ("back door", "in", "second"),
        ("gate", "none", "first"),
    ]
    assert [(o.name, o.radius, str(o.height), o.hole) for o in room.obstacles] == [
        ("bowl", Length.inches(16), "full", False),
        ("drain", Length(0), "low", False),
        ("tree well", Length(0), "full", True),
    ]
    assert (room.routes[0].start, room.routes[0].end, room.routes[0].width) == ("gate", "back door", Length.inches(30))
    assert (project.cushions[0].name, project.cushions[0].own) == ("back", 6)
    assert (str(wish.shape), wish.least, wish.most) == ("L", 2, 6)
    text = (here / "yard.yaml").read_text()
    assert "AB: 16' 4\", BC: 11," in text
    assert "#> " not in text


def test_every_question_shows_its_default_or_an_example() -> None:
    _, terminal = conducted(*YARD)
    questions = [said for said in terminal.said if not said.startswith(" ") and ":" in said]
    assert len(questions) > 40
    bare = [said for said in questions if not re.search(r"\[.+\]$|such as|: AB, BC|[0-9] x [0-9]", said)]
    assert bare == ["\nThese are the answers:"]


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> tuple[list[str], str]:
    """Every reply for YARD, and the file that they make."""
    talk, terminal = conducted(*YARD)
    return terminal.heard, starter_text(talk.sheet.data, "yard.yaml")


def test_wherever_it_stops_the_next_call_goes_on_from_there(
    whole: tuple[list[str], str], here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The input ends after each reply in turn: the draft is kept, and the rest of the replies makes the same file."""
    heard, _ = whole
    assert asked(heard, "yard.yaml", monkeypatch).code == 0
    complete = (here / "yard.yaml").read_text()
    (here / "yard.yaml").unlink()
    for stop in range(1, len(heard), 3):
        first = asked(heard[:stop], "yard.yaml", monkeypatch)
        assert (first.code, first.stdout) == (130, "")
        draft = (here / "yard.yaml").read_text()
        assert "# Still to be" in draft or "# All is answered" in draft
        second = asked(heard[stop:], "yard.yaml", monkeypatch)
        assert (second.code, second.stdout) == (0, "yard.yaml\n"), second.stderr
        assert (here / "yard.yaml").read_text() == complete
        (here / "yard.yaml").unlink()


def test_going_back_and_keeping_the_answer_changes_nothing(whole: tuple[list[str], str]) -> None:
    """`back` before each reply in turn, then Enter: the same file."""
    heard, text = whole
    for at in range(1, len(heard), 2):
        lines = [*heard[:at], "<" if at % 4 == 1 else "back", "", *heard[at:]]
        terminal = Scripted()
        monkey = iter(lines)
        terminal.hear = lambda monkey=monkey: next(monkey)  # type: ignore[method-assign]
        talk = Interview(interview, "yard.yaml", {}, terminal)
        assert starter_text(talk.conduct().data, "yard.yaml") == text
        assert next(monkey, None) is None


def test_back_goes_as_far_as_one_likes_and_later_answers_stay() -> None:
    talk, terminal = conducted(
        ("Title", "Yrad"),
        ("What a bare number means", "ft"),
        ("How far one reading", "back"),
        ("What a bare number means", "<"),
        ("Title of the project [Yrad]", "<"),
        ("Title of the project [Yrad]", "Yard"),
        *YARD[2:],
    )
    assert (talk.sheet.data["title"], talk.sheet.data["units"]) == ("Yard", "ft")
    assert "This is the first question." in terminal.said


def test_a_number_in_the_summary_asks_that_answer_again() -> None:
    number = next(k for k, said in enumerate(summary(conducted(*YARD)[1]), 1) if "gate, width: 3" in said)
    talk, terminal = conducted(
        *YARD,
        ("The number of an answer", "999"),
        ("The number of an answer", "x"),
        ("The number of an answer", str(number)),
        ("Its clear width", "42 in"),
    )
    assert talk.sheet.room["openings"][1]["width"] == "42 in"
    assert sum("is no number from 1 to" in said for said in terminal.said) == 2


def summary(terminal: Scripted) -> list[str]:
    return [said for said in terminal.said if re.match(r" *[0-9]+  ", said)]


def test_a_thing_of_a_list_can_be_dropped_without_those_after_it() -> None:
    number = next(k for k, said in enumerate(summary(conducted(*YARD)[1]), 1) if said.endswith("obstacle 1: bowl"))
    talk, _ = conducted(*YARD, ("The number of an answer", str(number)), ("A thing that seats stay off", "drop"))
    assert [obstacle["name"] for obstacle in talk.sheet.room["obstacles"]] == ["drain"]


def test_readings_that_disagree_are_told_at_once_and_asked_again() -> None:
    wrong = [("Tie AC", "18'") if start == "Tie AC" else (start, answer) for start, answer in YARD]
    talk, terminal = conducted(*wrong, ("Tie AC", "19' 8 1/4\""))
    assert talk.sheet.room["ties"] == {"AC": "19' 8 1/4\""}
    told = next(k for k, said in enumerate(terminal.said) if "the readings disagree" in said)
    assert "Tie AC" in terminal.said[told - 2]
    assert terminal.said[told + 1].startswith("Tie AC")
    others = terminal.said[told + 1].partition("or the name of another answer to correct: ")[2].partition(" [")[0]
    assert sorted(others.split(", ")) == ["AB", "B", "BC", "C", "CD", "DA"]


def test_a_tie_that_would_tell_which_reading_is_wrong_can_be_given_with_it() -> None:
    """Readings disagree, another tie is added by name, and only then is the first one corrected: both stay."""
    wrong = [("Tie AC", "18'") if start == "Tie AC" else (start, answer) for start, answer in YARD]
    talk, _ = conducted(
        *wrong, ("or the name of another", "BD = 19' 8 1/4\""), ("or the name of another", "19' 8 1/4\"")
    )
    assert talk.sheet.room["ties"] == {"AC": "19' 8 1/4\"", "BD": "19' 8 1/4\""}


def test_a_tie_that_cannot_be_taped_is_left_out_for_another() -> None:
    bare = [pair for pair in YARD if not pair[0].startswith(("At ", "Tie"))]
    talk, terminal = conducted(*bare, ("Tie BD", ""), ("Tie AC (needed", "19' 8 1/4\""))
    assert talk.sheet.room["ties"] == {"AC": "19' 8 1/4\""}
    assert sum("hand was the room" in said for said in terminal.said) == 1


def test_a_length_without_a_unit_is_told_back() -> None:
    _, terminal = conducted(*YARD)
    assert terminal.said.count("that is 11' 0\"") == 1


def test_another_reading_can_be_at_fault() -> None:
    wrong = [("Side BC", "12") if start == "Side BC" else (start, answer) for start, answer in YARD]
    talk, _ = conducted(("or the name of another", "BC"), *wrong, ("Side BC", "11"))
    assert talk.sheet.room["sides"]["BC"] == "11"


def test_a_thing_that_does_not_fit_is_told_at_once() -> None:
    wrong = [("Its clear width", "32 ft") if answer == "3" else (start, answer) for start, answer in YARD]
    talk, terminal = conducted(("[32 ft]", "3"), *wrong)
    assert talk.sheet.room["openings"][1]["width"] == "3"
    assert any("edge CD is 16' 4\" long" in said for said in terminal.said)


@pytest.mark.parametrize(
    ("question", "bad", "word"),
    [
        ("Side AB", "16x", "has `x` after the length"),
        ("Side AB", "0", "cannot be"),
        ("Side AB", "close", "the walk has only 0 sides"),
        ("What a bare number means", "yard", "write `in`, `ft`"),
        ("At B", "up", "inside angle"),
        ("Tie AC", "AD = 3", "is no tie"),
        ("Its centre", "8", "2 are needed"),
        ("The edge that `gate`", "XY", "write `AB`"),
        ("Another door or gate", "back door", "another one is named"),
        ("Fewest seats", "6-2", "lesser number first"),
        ("As sold", "", "an answer is needed"),
    ],
)  # fmt: skip
def test_an_answer_that_cannot_be_read_is_asked_again_with_a_word_about_it(question: str, bad: str, word: str) -> None:
    _, terminal = conducted((question, bad), *YARD)
    assert any(word in said for said in terminal.said)


def test_a_question_mark_tells_more() -> None:
    _, terminal = conducted(("Side AB", "?"), ("Title", "?"), *YARD)
    assert sum("`back` or `<`" in said for said in terminal.said) == 3


def test_flags_are_answers_where_the_outline_is_asked(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lines = ["", "16'", "11'", "16'", "close 11'", "l", "l", *[""] * 40]
    monkeypatch.setattr(sys, "stdin", io.StringIO("".join(f"{line}\n" for line in lines)))
    told = call(
        "fitter new yard.yaml --ask --title Yard --units ft --shape L --seats 3 "
        "--cushion name=seat,size=2x2x0.4,may_turn=yes"
    )
    assert told.code == 0, told.stderr
    assert "Title of the project" not in told.stderr
    project = read_project("yard.yaml")
    assert (project.title, project.unit, project.wish.least, str(project.wish.shape)) == ("Yard", Unit.FT, 3, "L")
    assert (project.cushions[0].may_turn, project.cushions[0].width) == (True, Length.inches(24))


def test_an_outline_from_flags_is_not_asked_for_again(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO("\n" * 40))
    told = call("fitter new yard.yaml --ask --rectangle 16ftx11ft --edge CD=open")
    assert told.code == 0, told.stderr
    assert "Side " not in told.stderr
    assert "Tie AC (worth taping" in told.stderr
    assert [str(edge.kind) for edge in read_room("yard.yaml").room.edges] == ["wall", "wall", "open", "wall"]


def test_a_draft_that_was_edited_is_not_written_over(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    asked(["Yard", "ft"], "yard.yaml", monkeypatch)
    draft = (here / "yard.yaml").read_text()
    (here / "yard.yaml").write_text(draft.replace("title: Yard", "title: My yard"))
    told = asked(["", ""], "yard.yaml", monkeypatch)
    assert told.code == 2
    assert "error[draft-edited]" in told.stderr
    assert "My yard" in (here / "yard.yaml").read_text()
    (here / "yard.yaml").write_text(draft)
    assert call("fitter new yard.yaml --rectangle 16ftx11ft").code == 2
    assert (here / "yard.yaml").read_text() == draft


def test_a_draft_says_what_is_still_to_be_taped(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    asked(["Yard", "ft", "", "16' 4\"", "11"], "yard.yaml", monkeypatch)
    draft = (here / "yard.yaml").read_text()
    assert draft.count("# Still to be taped: side CD, and what comes after it.") == 2
    assert "sides: {AB: 16' 4\", BC: 11}" in draft


def test_nothing_answered_leaves_nothing(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert asked([], "yard.yaml", monkeypatch).code == 130
    assert list(here.iterdir()) == []


@pytest.mark.parametrize("way", ["ctrl-c", "hangup"])
def test_an_interruption_at_a_terminal_keeps_the_answers(way: str, here: Path) -> None:
    leader, follower = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "fitter", "new", "yard.yaml"], env=ENVIRONMENT, stdin=follower,
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=True,
        preexec_fn=lambda: os.close(os.open(os.ttyname(follower), os.O_RDWR)),
    )  # fmt: skip
    assert process.stderr is not None
    os.write(leader, b"Yard\nft\n")
    told = ""
    while "tape may be off" not in told:
        told += process.stderr.read(1)
    if way == "ctrl-c":
        os.write(leader, b"\x03")
    else:
        process.send_signal(signal.SIGHUP)
    output, _ = process.communicate(timeout=60)
    os.close(leader)
    os.close(follower)
    assert (process.returncode, output) == (130, "")
    assert "title: Yard\n" in (here / "yard.yaml").read_text()


# Rooms of every kind


class Taped(dict[str, str]):
    """Answers about the outline of a room, each when it is asked for; lengths in millimetres, exact to the tenth."""

    def __init__(self, spots: list[Spot], turns: str) -> None:
        super().__init__()
        self.spots = spots
        self.turns = turns

    def get(self, key: str, default: Any = None) -> Any:
        return super().get(key) if key in self else self._known(key, default)

    def __missing__(self, key: str) -> Any:
        return self._known(key, None)

    def _known(self, key: str, default: Any) -> Any:
        section, _, name = key.rpartition(".")
        if key == "units":
            return "mm"
        if key == "room.walk":
            return "right" if clockwise(self.spots) else "left"
        if section == "room.sides":
            first = int(name) - 1
            if first >= len(self.spots):
                return default
            length = self._length(first, (first + 1) % len(self.spots))
            return length if int(name) < len(self.spots) else f"close {length}"
        if section == "room.ties":
            return self._length(*(NAMES.index(corner) for corner in name))
        if section == "room.turns":
            return f"{inside(self.spots, NAMES.index(name)):.3f}" if name in self.turns else ""
        return default

    def _length(self, first: int, second: int) -> str:
        return f"{25.4 * math.dist(self.spots[first], self.spots[second]):.1f}"


def clockwise(spots: list[Spot]) -> bool:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(spots, [*spots[1:], spots[0]], strict=True)) < 0


def inside(spots: list[Spot], k: int) -> float:
    (ax, ay), (bx, by), (cx, cy) = spots[k - 1], spots[k], spots[(k + 1) % len(spots)]
    angle = math.degrees(math.atan2(ay - by, ax - bx) - math.atan2(cy - by, cx - bx)) % 360
    return 360 - angle if clockwise(spots) else angle


@settings(deadline=None, max_examples=25)
@given(outlines(most=6), st.sampled_from(["", "B", "BD", "ABC"]), st.booleans())
def test_any_room_that_is_taped_when_asked_is_the_room_in_the_file(
    spots: list[Spot], turns: str, mirrored: bool
) -> None:
    """In both directions, with few turns or none: the ties that are asked for fix the shape, the right way round."""
    if mirrored:
        spots = [(x, -y) for x, y in spots]
    terminal = Scripted()
    sheet = Interview(interview, "yard.yaml", Taped(spots, turns), terminal).conduct()
    room = read_room("yard.yaml", starter_text(sheet.data, "yard.yaml")).room
    assert signed_area(room.outline) > 0
    places = dict(room.corners)
    for i, a in enumerate(spots):
        for j, b in enumerate(spots[:i]):
            one, other = places[NAMES[i]], places[NAMES[j]]
            apart = math.dist(*[(float(p.x.mm), float(p.y.mm)) for p in (one, other)])
            assert apart == pytest.approx(25.4 * math.dist(a, b), abs=5)
    # The room is not turned over: three corners turn the same way as those that were taped, seen from above.
    a, b, c = (complex(float(places[n].x.mm), float(places[n].y.mm)) for n in "ABC")
    p, q, r = (complex(*spots[k]) for k in range(3))
    assert ((b - a).conjugate() * (c - a)).imag * ((q - p).conjugate() * (r - p)).imag > 0
