"""The flags of `fitter new` as the command line declares them; loaded for every `--help`, so it loads nothing heavy."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from fitter.cli.running import run

_ROOM, _CUSHIONS, _WISH = "The room", "Cushions", "Wishes"
Texts = list[str] | None


def _one(flag: str, help: str, panel: str, metavar: str) -> typer.models.OptionInfo:
    """A flag that is given once at most."""
    option: typer.models.OptionInfo = typer.Option(
        flag, help=help, rich_help_panel=panel, metavar=metavar, show_default=False
    )
    return option


_many = _one
"""A flag that may be given many times; its type tells it apart."""


def new(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="The file to be written.")] = Path("project.yaml"),
    title: Annotated[str | None, _one("--title", "Heading of every sheet.", _ROOM, "TEXT")] = None,
    note: Annotated[str | None, _one("--note", "A second line under it.", _ROOM, "TEXT")] = None,
    units: Annotated[
        str | None, _one("--units", "What a bare number means; in if not said.", _ROOM, "in|ft|mm|cm|m")
    ] = None,
    tolerance: Annotated[
        str | None, _one("--tolerance", "How far one tape reading may be off.", _ROOM, "LENGTH")
    ] = None,
    rectangle: Annotated[
        str | None, _one("--rectangle", "A plain rectangle, such as 16ftx11ft.", _ROOM, "LENGTHxLENGTH")
    ] = None,
    side: Annotated[Texts, _many("--side", "A side as taped, in walking order.*", _ROOM, "AB=LENGTH")] = None,
    turn: Annotated[Texts, _many("--turn", "left, right or the inside angle at a corner.*", _ROOM, "B=TURN")] = None,
    tie: Annotated[Texts, _many("--tie", "A diagonal taped across.*", _ROOM, "AC=LENGTH")] = None,
    edge: Annotated[Texts, _many("--edge", "wall, railing, open or step.*", _ROOM, "AB=KIND")] = None,
    opening: Annotated[
        Texts,
        _many(
            "--opening",
            "A door or gate: name, edge, from, width; swing (in: its leaf sweeps the patio), hinge.*",
            _ROOM,
            "KEY=…,KEY=…",
        ),
    ] = None,
    obstacle: Annotated[
        Texts,
        _many(
            "--obstacle",
            "name; centre, radius or at, size or corners; clear, height, open_flame.*",
            _ROOM,
            "KEY=…,KEY=…",
        ),
    ] = None,
    hole: Annotated[
        Texts, _many("--hole", "A hole in the ground, such as a tree well: name and shape.*", _ROOM, "KEY=…,KEY=…")
    ] = None,
    route: Annotated[Texts, _many("--route", "A walkway to keep open: from, to, width.*", _ROOM, "KEY=…,KEY=…")] = None,
    cushion: Annotated[
        Texts,
        _many(
            "--cushion", "name, size; back, ease, own, price, may_turn, may_notch, seats.*", _CUSHIONS, "KEY=…,KEY=…"
        ),
    ] = None,
    seats: Annotated[str | None, _one("--seats", "Fewest seats, or fewest and most: 4-6.", _WISH, "NUMBER")] = None,
    shape: Annotated[str | None, _one("--shape", "any, straight, L or U.", _WISH, "SHAPE")] = None,
    hand: Annotated[
        str | None, _one("--hand", "Side of the short run of an L: any, left or right.", _WISH, "HAND")
    ] = None,
    ends: Annotated[str | None, _one("--ends", "any, armed or open.", _WISH, "KIND")] = None,
    corner: Annotated[
        str | None, _one("--corner", "any, inside post, outside post or table corner.", _WISH, "KIND")
    ] = None,
    against: Annotated[Texts, _many("--against", "edge (any), free, or an edge.*", _WISH, "EDGE")] = None,
    off_wall: Annotated[str | None, _one("--off-wall", "At most so far from that edge.", _WISH, "LENGTH")] = None,
    legroom: Annotated[str | None, _one("--legroom", "Clear depth in front of the seats.", _WISH, "LENGTH")] = None,
    ask: Annotated[
        bool, typer.Option("--ask", help="Ask, even with an outline given or answers coming from a pipe.")
    ] = False,
    force: Annotated[bool, typer.Option("--force", help="Write over a file that is there.")] = False,
    json: Annotated[
        bool, typer.Option("--json", help="Print one JSON document instead of the name of the file.")
    ] = False,
    debug: Annotated[bool, typer.Option("--debug", help="Show the whole traceback of a mistake of ours.")] = False,
) -> None:
    """Write a commented project file, by asking or from flags.

    At a terminal, and without --side or --rectangle, it asks. Every answer can
    be corrected, and what is answered when you stop is kept for the next call.

    A flag marked * may be given many times. What holds blanks goes in quotes:

    --side "AB=16' 4" --turn B=left --tie "AC=19ft 8in" --edge BC=railing

    --opening "name=back door,edge=AB,from=2ft,width=32in,swing=in"

    --obstacle "name=pot,centre=7ft x 5ft,radius=8in,clear=2in"

    --cushion "name=seat,size=24in x 24in x 5in,own=6"
    """

    def work() -> int:
        # Geometry and the file reader load only here, so that help stays quick.
        from fitter.cli.starting.command import Call, start_file
        from fitter.cli.starting.flags import Flags

        single = {
            "title": ("--title", title),
            "note": ("--note", note),
            "units": ("--units", units),
            "room.tolerance": ("--tolerance", tolerance),
            "wish.shape": ("--shape", shape),
            "wish.seats": ("--seats", seats),
            "wish.hand": ("--hand", hand),
            "wish.ends": ("--ends", ends),
            "wish.corner": ("--corner", corner),
            "wish.off_wall": ("--off-wall", off_wall),
            "wish.legroom": ("--legroom", legroom),
        }
        flags = Flags(
            single={key: (flag, value) for key, (flag, value) in single.items() if value is not None},
            rectangle=rectangle or "",
            sides=tuple(side or ()),
            turns=tuple(turn or ()),
            ties=tuple(tie or ()),
            edges=tuple(edge or ()),
            openings=tuple(opening or ()),
            obstacles=tuple(obstacle or ()),
            holes=tuple(hole or ()),
            routes=tuple(route or ()),
            cushions=tuple(cushion or ()),
            against=tuple(against or ()),
        )
        return start_file(Call(file, flags, ask, force, json))

    run(work, as_json=json, debug=debug)
