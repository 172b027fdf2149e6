"""A frame as tables for the terminal, 80 columns wide: enough for a stranger to build it from."""

from __future__ import annotations

from collections.abc import Iterator

from rich.console import Console

from fitter.domain.outcome import FrameResult, LayoutResult
from fitter.domain.project import Project
from fitter.domain.species import species
from fitter.domain.wishes import CornerKind
from fitter.domain.woodwork import Part, Woodwork
from fitter.report.heading import layout_line, no_such_layout, print_heading
from fitter.report.parts import rows, sums
from fitter.report.parts.batches import batches, pieces, volume
from fitter.report.parts.bored import bored as bored_lines
from fitter.report.parts.care import cautions
from fitter.report.parts.holes import holes, told_drill
from fitter.report.parts.sides import SIDES
from fitter.report.parts.weight import told_volume, told_weight
from fitter.report.printing import print_findings, print_table, say
from fitter.report.tables import print_fit
from fitter.report.words import SAFETY, counted, run_name, teller
from rooms.lengths import Length


def print_parts(console: Console, project: Project, framed: FrameResult, denominator: int = 16) -> None:
    """Print the parts of a frame and what belongs to them, or why there is none.

    Args:
        console: where to.
        project: what was asked.
        framed: not a `fault`, whose frame must not be shown.
        denominator: finest fraction of an inch.
    """
    if not framed.fit.layouts:
        print_fit(console, project, framed.fit, denominator)
        return
    if framed.shown is None or framed.woodwork is None:
        print_heading(console, project, no_such_layout(framed))
        return
    _Printer(console, project, framed.shown, framed.woodwork, denominator).whole()


class _Printer:
    """Prints one frame."""

    def __init__(
        self, console: Console, project: Project, shown: LayoutResult, woodwork: Woodwork, denominator: int
    ) -> None:
        self._console, self._project, self._shown, self._woodwork = console, project, shown, woodwork
        self._tell = teller(project.unit, denominator)
        self._cut = teller(project.unit, denominator, feet=False)
        self._batches = batches(woodwork)
        self._pieces = pieces(woodwork)

    def whole(self) -> None:
        """Everything, from the layout to the cautions."""
        self._head()
        self._parts()
        self._details()
        self._spreads()
        self._feet()
        self._joints()
        self._totals()
        self._carrying()
        self._proof()
        print_findings(self._console, (*self._shown.failed, *self._woodwork.findings, *self._project.findings))
        self._care()

    def _head(self) -> None:
        project, console, layout = self._project, self._console, self._shown.layout
        print_heading(console, project, layout_line(project, self._shown, self._tell))
        table = layout.corner is CornerKind.TABLE_CORNER
        heads = ("height above the floor at the highest foot", "height")
        print_table(console, heads, rows.levels(self._woodwork, self._tell, table=table))
        self._measuring()
        console.print()
        say(console, SIDES)
        if lean := project.frame.carpentry.lean:
            console.print()
            say(
                console,
                f"The backs lean {float(lean):g}° from upright: their rails and slats are tilted between uprights that "
                "stand plumb. Their lengths are measured along the slant; heights of the back are those of its ends.",
            )

    def _measuring(self) -> None:
        lacking = list(rows.to_measure(self._woodwork, self._cut))
        if not lacking:
            return
        self._title("measure these boards before anything is cut")
        example = "{" + f"{lacking[0][0]}: {lacking[0][1]} x {lacking[0][2]}" + "}"
        say(
            self._console,
            "Their sizes are from a table, and boards differ from it. Tape them with a calliper or against a square, "
            f"write what you find under `frame.measured`, such as `{example}`, and run this again.",
        )
        print_table(self._console, ("section", "thick", "wide", "used for"), lacking)

    def _title(self, text: str) -> None:
        self._console.print()
        self._console.print(text, style="bold")

    def _parts(self) -> None:
        heads = ("mark", "part", "from", "length", "short", "count")
        for run, those in rows.by_run(self._batches):
            self._title(f"{run_name(run)}: parts to cut")
            print_table(self._console, heads, rows.parts(those, self._cut))
            print_table(self._console, ("mark", "goes", "shows"), rows.places(those))
        self._console.print()
        if any(not end.square for part in self._woodwork.parts for end in part.cuts):
            say(self._console, "Length is from long point to long point; short is from short point to short point.")

    def _details(self) -> None:
        heads = ("mark", "end", "cut", "recedes", "long point")
        if slanted := list(rows.slanted(self._batches, self._cut)):
            self._title("ends that are not square")
            print_table(self._console, heads, slanted)
        if housed := list(rows.housed(self._batches, self._cut)):
            self._title("housings to cut")
            print_table(self._console, ("mark", "along", "across", "deep"), housed)
        every = holes(self._woodwork, self._project.unit)
        if bored := list(bored_lines(self._batches, every, self._cut, self._drill)):
            self._title("holes to bore before parts are put together")
            say(
                self._console,
                "Each hole is told by how far along the part it is from an end, at how far across from a side. Where "
                "sticks of one mark are bored differently, it is said where they go, or they are numbered along their "
                "run, from the right end of the main run or from the corner of an arm. Pilot holes are bored through "
                "these when parts are put together.",
            )
            self._console.print()
            for line in bored:
                say(self._console, line, 4)

    def _drill(self, width: Length) -> str:
        return told_drill(width, self._project.unit)

    def _spreads(self) -> None:
        if not self._woodwork.spreads:
            return
        self._title("how slats are spread")
        heads = ("slats", "space", "first gap", "last gap", "limit", "where")
        print_table(self._console, heads, sums.spreads(self._woodwork, self._cut))
        self._console.print()
        for line in sums.spread_lines(self._woodwork, self._cut):
            say(self._console, line, 2)
        say(self._console, "Gaps are counted from the right end of the main run, and from the corner of an arm.", 2)

    def _feet(self) -> None:
        if not self._woodwork.fall:
            return
        self._title("feet")
        say(self._console, f"The floor under the lowest foot is {self._tell(self._woodwork.fall)} below the highest.")
        heads = ("height", "count", "run", "under", "where")
        print_table(self._console, heads, sums.standing(self._woodwork, self._tell))

    def _joints(self) -> None:
        told = list(sums.joints(self._woodwork, self._cut))
        if not told:
            return
        self._title("joints")
        print_table(self._console, ("what is held to what", "with", "count", "marks"), told)

    def _totals(self) -> None:
        work, project = self._woodwork, self._project
        self._title("what it takes")
        print_table(self._console, ("section", "count", "length"), sums.lengths(work, self._tell))
        heads = ("fastener", "count", "hole", "pilot")
        print_table(self._console, heads, sums.bought_hardware(work, project.unit, self._cut, self._drill))
        self._console.print()
        cubic = volume(work.parts)
        say(
            self._console,
            f"{counted(len(work.parts), 'part')} of {counted(len(self._batches), 'mark')}; "
            f"{told_volume(project.unit, cubic)}; about {told_weight(project, cubic)} of "
            f"{project.frame.carpentry.species} at 12 % moisture, without cushions and fasteners. Lengths are those of "
            "finished parts end to end: saw cuts and offcuts come on top.",
        )
        if work.joints:
            wood = species(project.frame.carpentry.species)
            say(self._console, f"For {wood.name} outdoors: {wood.fasteners}.")

    def _carrying(self) -> None:
        carry = self._project.frame.carry
        if carry is None and len(self._pieces) == 1:
            return
        self._title("pieces to carry")
        weights = [told_weight(self._project, volume(piece.parts)) for piece in self._pieces]
        heads = ("piece", "parts", "box around it", "weight", "gets in")
        print_table(self._console, heads, sums.carried(self._pieces, carry, self._tell, weights))

    def _proof(self) -> None:
        self._console.print()
        say(self._console, proof_line(self._woodwork))

    def _care(self) -> None:
        self._title("take care")
        for said, source in cautions(self._project, [*self._carried()]):
            say(self._console, f"{said} ({source})", 2)
        console = self._console
        console.print()
        console.print(f"{SAFETY}.")

    def _carried(self) -> Iterator[tuple[str, tuple[Part, ...]]]:
        if len(self._pieces) == 1:
            yield "the whole frame", self._pieces[0].parts
        else:
            yield from ((f"piece {piece.number}", piece.parts) for piece in self._pieces)


def proof_line(woodwork: Woodwork) -> str:
    """What has been shown of a frame that passed its proof."""
    screws = sum(len(joint.fasteners) for joint in woodwork.joints)
    held = sum(bool(joint.fasteners) for joint in woodwork.joints)
    return (
        f"Proven of these {len(woodwork.parts)} parts by a check that shares nothing with what built them: no two "
        "overlap; every slat end bears on a cleat or a rail; every rail end meets what holds it; every cleat is "
        "fastened; every part is reached from the ground through parts that touch; every cushion is carried and "
        f"nothing sticks into it; no gap can trap a head. {counted(len(woodwork.joints), 'contact')}, {held} of them "
        f"fastened, with {counted(screws, 'fastener')} whose way lies in wood."
    )


__all__ = ["print_parts", "proof_line"]
