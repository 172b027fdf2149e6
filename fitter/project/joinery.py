"""Whether the sizes of a frame go together: joints have wood to hold in, and heights follow each other.

A mistake is one only where the file wrote what it comes from; what usual sizes give beside a thing of the user's own
is a caution, since a layout can be found all the same.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitter.domain.cushions import Cushion
from fitter.domain.findings import Severity
from fitter.domain.frame import Carpentry, EndPanel, Frame, RailJoint, Section, Stance
from fitter.domain.levels import THINNEST as BEARER
from fitter.domain.levels import in_units
from fitter.domain.sections import dressed
from fitter.domain.woodwork import Levels
from fitter.project.carpentry import DEEPER, back_depth, heights, panel_height, upright_depth
from fitter.project.forms import FrameForm, SectionsForm
from fitter.project.ledger import Ledger
from fitter.project.words import shown
from rooms.lengths import ZERO, Length

THINNEST = (Length.inches("1/2"), Length.millimetres(12))
"""Common practice: a screw holds in no thinner wood."""


@dataclass(frozen=True)
class Trouble:
    """What does not go together.

    Args:
        code: of the finding.
        message: what was found.
        help: what would be right.
        keys: below `frame`, the one that is most likely at fault first.
    """

    code: str
    message: str
    help: str
    keys: tuple[str, ...]


def check_joinery(ledger: Ledger, form: FrameForm, frame: Frame, cushions: tuple[Cushion, ...]) -> None:
    """Record what does not go together; only of a frame and cushions that have no mistake of their own."""
    if not ledger.unit_known or not ledger.clean("frame", "cushions"):
        return
    case = _Case(ledger, form, frame, cushions)
    for trouble in (*case.joints(), *case.heights(), *case.backs(), *case.ends()):
        written = [key for key in trouble.keys if f"frame.{key}" in ledger.tree.keys]
        if written:
            ledger.error(trouble.code, trouble.message, f"frame.{written[0]}", trouble.help)
        else:
            place = "frame.sections" if "frame.sections" in ledger.tree.keys else "frame"
            ledger.remark(trouble.code, trouble.message, place, trouble.help, severity=Severity.CAUTION)


@dataclass(frozen=True)
class _Case:
    ledger: Ledger
    form: FrameForm
    frame: Frame
    cushions: tuple[Cushion, ...]

    @property
    def made(self) -> Carpentry:
        return self.frame.carpentry

    @property
    def levels(self) -> tuple[tuple[Cushion, Levels], ...]:
        return heights(self.made, self.frame.rail, self.cushions, self.ledger.unit)

    def say(self, length: Length) -> str:
        return self.ledger.say(length)

    def joints(self) -> Iterator[Trouble]:
        """Wood to hold in, in the seat frame."""
        made, rail, post, say = self.made, self.frame.rail, self.frame.post, self.say
        yield from self._thin()
        needed = made.cleat.width + made.seat_slat.thickness
        if needed > rail.width:
            message = (
                f"cleats `{shown(made.cleat.name)}` under slats {say(made.seat_slat.thickness)} thick reach "
                f"{say(needed)} down, and rails `{shown(rail.name)}` are {say(rail.width)} wide"
            )
            help = "take a wider rail, thinner slats or a lower cleat"
            yield Trouble("cleat-too-tall", message, help, ("sections.cleat", "sections.seat_slat"))
        if made.rail_joint is RailJoint.HOUSING and 2 * made.housing >= post.width:
            message = (
                f"housings {say(made.housing)} deep from both sides leave nothing of a post {say(post.width)} wide"
            )
            help = f"write a `housing` below {say(Length(post.width.units // 2))}; common practice is a third at most"
            yield Trouble("housing-too-deep", message, help, ("housing", "rail_joint"))
        if made.reveal_beside + rail.thickness > post.width:
            message = (
                f"rails {say(rail.thickness)} thick that stand back {say(made.reveal_beside)} miss posts "
                f"{say(post.width)} wide"
            )
            help = f"write at most {say(max(ZERO, post.width - rail.thickness))}"
            yield Trouble("reveal-too-deep", message, help, ("reveal.beside",))
        narrowest = min((min(cushion.size[:2]) for cushion in self.cushions), default=None)
        if narrowest is not None and made.seat_slat.width > narrowest:
            message = f"a seat slat {say(made.seat_slat.width)} wide is wider than a cushion of {say(narrowest)}"
            yield Trouble("slat-too-wide", message, "take narrower slats", ("sections.seat_slat",))
        if made.back_slat.width >= made.back_span:
            message = f"a back slat {say(made.back_slat.width)} wide fills a bay of {say(made.back_span)}"
            help = "take narrower slats, or a longer `back_span`"
            yield Trouble("slat-too-wide", message, help, ("sections.back_slat", "back_span"))

    def _thin(self) -> Iterator[Trouble]:
        least = in_units(THINNEST, self.ledger.unit)
        for part in SectionsForm.model_fields:
            section: Section | None = getattr(self.made, part, None)
            if section is not None and section.thickness < least and f"frame.sections.{part}" in self.ledger.tree.keys:
                message = f"`{part}` is {self.say(section.thickness)} thick, and no screw holds in that"
                help = f"take one of at least {self.say(least)}"
                yield Trouble("section-too-thin", message, help, (f"sections.{part}",))

    def heights(self) -> Iterator[Trouble]:
        """Seat, feet, ledgers and tables over each other."""
        if not self.cushions:
            return
        made, say, rail = self.made, self.say, self.frame.rail
        cushion, low = min(self.levels, key=lambda pair: pair[1].deck)
        yield from self._seat_said_twice()
        under = low.rail_bottom - low.foot
        if under < ZERO and made.reveal_below is not None:
            message = f"rails {say(made.reveal_below)} above the floor leave no room for feet of {say(low.foot)}"
            help = f"write `below: {say(low.foot)}` or more, or a lower `foot_height`"
            yield Trouble("reveal-too-low", message, help, ("reveal.below", "foot_height"))
        elif under < ZERO:
            message = (
                f"a seat {say(made.seat_height)} high is too low: cushion `{cushion.name}` takes "
                f"{say(cushion.size[2])}, the rail {say(rail.width)} and feet {say(low.foot)}"
            )
            help = f"write `seat_height: {say(made.seat_height - under)}` or more, or take a narrower rail"
            yield Trouble("seat-too-low", message, help, ("seat_height", "foot_height"))
        elif made.rail_joint is RailJoint.LEDGER and under < made.cleat.width:
            message = (
                f"a ledger `{shown(made.cleat.name)}` is {say(made.cleat.width)} high, and there are {say(under)} "
                "under the rails"
            )
            help = "raise the seat, or take another `rail_joint`"
            yield Trouble("ledger-no-room", message, help, ("seat_height", "reveal.below", "rail_joint"))
        bearer = in_units(BEARER, self.ledger.unit)
        top = low.deck + made.table.thickness.ceil_to(self.ledger.unit.mark) + bearer
        if made.table_height is not None and made.table_height < top:
            message = (
                f"a table {say(made.table_height)} high leaves less than {say(bearer)} under its boards for bearers"
            )
            yield Trouble("table-too-low", message, f"write `table_height: {say(top)}` or more", ("table_height",))

    def _seat_said_twice(self) -> Iterator[Trouble]:
        made, say, mark = self.made, self.say, self.ledger.unit.mark
        if made.reveal_below is None or self.form.seat_height is None:
            return
        for cushion, at in self.levels:
            if abs(at.seat - made.seat_height) >= mark:
                message = (
                    f"`reveal.below` {say(made.reveal_below)}, the rail {say(self.frame.rail.width)} and cushion "
                    f"`{cushion.name}` {say(cushion.size[2])} make a seat of {say(at.seat)}, and `seat_height` is "
                    f"{say(made.seat_height)}"
                )
                yield Trouble("seat-said-twice", message, "leave out one of the two", ("seat_height",))
                return

    def backs(self) -> Iterator[Trouble]:
        """Panels, their uprights, and the cushions before them."""
        if not self.cushions:
            return
        made, say, unit = self.made, self.say, self.ledger.unit
        too_low = tuple(self._back_height())
        yield from too_low
        low = min(at.back_top - at.back_bottom for _, at in self.levels)
        if low < 2 * made.back_rail.width and not too_low:
            message = f"two rails `{shown(made.back_rail.name)}` do not fit into a back panel {say(low)} high"
            help = "take narrower `back_rail`, or a greater `back_height`"
            yield Trouble("back-rails-too-wide", message, help, ("sections.back_rail", "back_height"))
        yield from self._upright_holds()
        args = (made, self.frame.rail, self.cushions, unit)
        if made.lean and made.upright.width < (deep := upright_depth(*args)):
            message = (
                f"a back {say(panel_height(*args))} high that leans by {float(made.lean):g}° asks for uprights "
                f"{say(deep)} deep, and `{shown(made.upright.name)}` is {say(made.upright.width)}"
            )
            deeper = [name for name in DEEPER if (section := dressed(name, unit)) and section.width >= deep]
            wider = f"take `upright: {deeper[0]}`, " if deeper else "no usual section is so wide: take "
            help = f"{wider}a smaller `lean` or a lower `back_height`"
            yield Trouble("upright-too-narrow", message, help, ("sections.upright", "lean", "back_height"))
        elif self.form.back_thickness is not None and (needed := back_depth(*args)) > self.frame.back_thickness:
            message = (
                f"`back_thickness` is {say(self.frame.back_thickness)}, and the back panels are {say(needed)} deep"
            )
            help = f"write `back_thickness: {say(needed)}`, or leave it out"
            yield Trouble("back-too-thin", message, help, ("back_thickness",))

    def _upright_holds(self) -> Iterator[Trouble]:
        """Rails of a back end against its uprights: these are at least as deep as the rails are thick."""
        made, say = self.made, self.say
        flat = Stance.FLAT in (made.upright_at_end, made.upright_at_corner)
        deep = made.upright.thickness if flat else made.upright.width
        if deep < made.back_rail.thickness:
            message = (
                f"uprights `{shown(made.upright.name)}` are {say(deep)} deep, and the rails that end against them "
                f"{say(made.back_rail.thickness)} thick"
            )
            help = "take a thicker `upright`, let it stand on `edge`, or take a thinner `back_rail`"
            yield Trouble("upright-too-thin", message, help, ("sections.upright", "sections.back_rail", "uprights"))

    def _back_height(self) -> Iterator[Trouble]:
        height, say = self.made.back_height, self.say
        if height is None:
            return
        backs = [cushion for cushion in self.cushions if cushion.back is not None]
        seat = max(at.seat for _, at in self.levels)
        tall = max(backs, key=lambda cushion: cushion.back.height if cushion.back else ZERO, default=None)
        if tall is None or tall.back is None:
            if height <= seat:
                message = (
                    f"a back that ends at {say(height)} does not rise above the seat cushion, which ends at {say(seat)}"
                )
                yield Trouble("back-too-low", message, f"write more than {say(seat)}", ("back_height",))
        elif height < seat + tall.back.height:
            message = (
                f"a back that ends at {say(height)} is lower than the back cushion of `{tall.name}`, which ends at "
                f"{say(seat + tall.back.height)}"
            )
            help = f"write `back_height: {say(seat + tall.back.height)}` or more, or leave it out"
            yield Trouble("back-too-low", message, help, ("back_height",))

    def ends(self) -> Iterator[Trouble]:
        """Arms above the seat, and ends as thick as what they are made of."""
        made, say = self.made, self.say
        for part, name, section, written in (
            ("arm", "arm_thickness", made.arm, self.form.arm_thickness),
            ("leg", "open_end_thickness", made.leg, self.form.open_end_thickness),
        ):
            if written is not None and section.thickness > written:
                message = (
                    f"`{name}` is {say(written)}, and its section `{shown(section.name)}` is "
                    f"{say(section.thickness)} thick"
                )
                help = f"write `{name}: {say(section.thickness)}` or leave it out"
                yield Trouble("end-too-thin", message, help, (name, f"sections.{part}"))
            elif written is not None and self.frame.rail.thickness > written:
                message = (
                    f"`{name}` is {say(written)}, and the rail in that end is {say(self.frame.rail.thickness)} thick"
                )
                help = f"write `{name}: {say(self.frame.rail.thickness)}` or leave it out"
                yield Trouble("end-too-thin", message, help, (name,))
        yield from self._end_holds()
        if not self.cushions:
            return
        seat = max(at.seat for _, at in self.levels)
        if made.arm_height is not None and made.arm_height <= seat:
            message = (
                f"an arm {say(made.arm_height)} high does not rise above the seat cushion, whose top is at {say(seat)}"
            )
            help = f"write more than {say(seat)}, or leave it out for 8 in or 200 mm above the cushion that is sat on"
            yield Trouble("arm-too-low", message, help, ("arm_height",))
        low = min(at.arm - at.foot for _, at in self.levels)
        if made.end_panel is EndPanel.MITRED and low <= 2 * made.arm.width:
            message = f"two pieces `{shown(made.arm.name)}` fill an end panel {say(low)} high"
            help = "take a narrower `arm`, or a greater `arm_height`"
            yield Trouble("arm-too-wide", message, help, ("sections.arm", "arm_height"))

    def _end_holds(self) -> Iterator[Trouble]:
        """The rail in an end meets at least half its thickness of the posts or legs beside it."""
        rail, say = self.frame.rail, self.say
        for part, section in (("arm", self.made.arm), ("leg", self.made.leg)):
            if 2 * section.thickness < rail.thickness:
                message = (
                    f"`{part}` `{shown(section.name)}` is {say(section.thickness)} thick, less than half of the rail "
                    f"`{shown(rail.name)}` that ends against it"
                )
                help = f"take one at least {say(Length(-(-rail.thickness.units // 2)))} thick"
                yield Trouble("end-too-thin", message, help, (f"sections.{part}",))
