"""How the frame is built: what `frame` says of it, and what follows where it says nothing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Annotated

from pydantic import TypeAdapter

from fitter.domain.cushions import Cushion
from fitter.domain.frame import Carpentry, RailJoint, Section, Stance
from fitter.domain.levels import derived, lean_depth
from fitter.domain.woodwork import Levels
from fitter.project.defaults import ENTRAPMENT, ENTRAPMENT_SOURCE, WIDEST_GAP, Defaults, defaults
from fitter.project.fields import Size, one_of, words_of
from fitter.project.forms import FrameForm, GapsForm, RevealForm, UprightsForm
from fitter.project.ledger import Ledger
from fitter.project.lumber import Lumber
from fitter.project.tree import Data
from rooms.lengths import ZERO, Length, Unit

DEEPER = ("2x4", "2x6", "2x8", "2x10", "2x12", "2x14")
"""Uprights of a leaning back, rising; none is narrower than those of an upright one."""
_THICKER = ("1x4", "5/4x4", "2x4", "3x4", "4x4")
"""Pads under posts, rising."""
_THINNER = {"arm": ("4x4", "3x4", "2x4", "1x4"), "leg": ("2x4", "1x4")}
"""What an end of a written thickness is made of, falling."""

_GAP: TypeAdapter[Length] = TypeAdapter(Size)
_GAPS = "one length, or `{seat: …, back: …}`"
_STANCE: TypeAdapter[Stance | None] = TypeAdapter(
    Annotated[Stance | None, one_of(words_of(Stance), "`flat`, `edge` or, each apart, `{end: flat, corner: edge}`")]
)


def read_carpentry(
    ledger: Ledger,
    form: FrameForm,
    lumber: Lumber,
    said: Mapping[str, Section],
    rail: Section,
    cushions: tuple[Cushion, ...],
) -> Carpentry:
    """How the frame is built, complete with defaults.

    Args:
        ledger: takes the mistakes.
        form: `frame`.
        lumber: for sections that the file does not name.
        said: those that it names, by the kind of part.
        rail: section of the seat rails.
        cushions: whose thickness and backs the heights follow.
    """
    usual = defaults(ledger.unit)
    parts = _sections(lumber, form, said, usual, rail)
    seat_gap, back_gap = _gaps(ledger, form.slat_gap, usual)
    reveal = ledger.section(RevealForm, form.reveal, "frame.reveal")
    at_end, at_corner = _stances(ledger, form)
    made = Carpentry(
        upright=parts["upright"],
        back_rail=parts["back_rail"],
        back_slat=parts["back_slat"],
        seat_slat=parts["seat_slat"],
        cleat=parts["cleat"],
        arm=parts["arm"],
        leg=parts["leg"],
        foot=parts["foot"],
        table=parts["table"],
        seat_height=form.seat_height if form.seat_height is not None else usual.seat_height,
        arm_height=form.arm_height,
        back_height=form.back_height,
        table_height=form.table_height,
        compression=form.compression if form.compression is not None else Carpentry.compression,
        lean=form.lean if form.lean is not None else Carpentry.lean,
        slat_gap=seat_gap,
        back_gap=back_gap,
        reveal_below=reveal.below,
        reveal_beside=reveal.beside if reveal.beside is not None else ZERO,
        end_panel=form.end_panel,
        rail_joint=form.rail_joint,
        housing=form.housing if form.housing is not None else usual.housing,
        upright_at_end=at_end,
        upright_at_corner=at_corner,
        back_span=form.back_span if form.back_span is not None else _back_span(usual, cushions, ledger.unit),
        slat_fixing=form.slat_fixing,
        foot_height=form.foot_height if form.foot_height is not None else parts["foot"].thickness,
        level=form.slope,
        species=form.species,
    )
    if form.seat_height is None:
        made = replace(made, seat_height=_seat_height(made, rail, usual, cushions, ledger.unit))
    return made if "upright" in said else _deep_enough(made, rail, lumber, cushions, ledger.unit)


def _sections(
    lumber: Lumber, form: FrameForm, said: Mapping[str, Section], usual: Defaults, rail: Section
) -> dict[str, Section]:
    """The section of each kind of part; ends and feet of a written size that name none get one that suits."""
    parts = {part: said.get(part) or lumber.usual(text) for part, text in usual.sections.items()}
    for part, most in (("arm", form.arm_thickness), ("leg", form.open_end_thickness)):
        if most is not None and part not in said and parts[part].thickness > most:
            parts[part] = lumber.at_most(_THINNER[part], most)
    if "leg" not in said and form.open_end_thickness is None:
        # The rail of an open end meets half its thickness of a leg at least.
        least = Length(-(-rail.thickness.units // 2))
        parts["leg"] = lumber.thinnest((usual.sections["leg"], "3x4", "4x4"), least) or parts["leg"]
    if form.foot_height is not None and "foot" not in said:
        parts["foot"] = lumber.thinnest(_THICKER, form.foot_height) or lumber.usual(_THICKER[-1])
    return parts


def _gaps(ledger: Ledger, data: Data, usual: Defaults) -> tuple[Length, Length]:
    """The widest gap between seat slats and between back slats; none may be one that a head is caught in."""
    if isinstance(data, dict):
        form = ledger.section(GapsForm, data, "frame.slat_gap")
        written = {"frame.slat_gap.seat": form.seat, "frame.slat_gap.back": form.back}
    else:
        both = ledger.value(_GAP, data, "frame.slat_gap", _GAPS) if data is not None else None
        written = {"frame.slat_gap": both}
    most = WIDEST_GAP[0 if ledger.unit.imperial else 1]
    for key, gap in written.items():
        if gap is not None and ledger.unit_known and gap > most:
            low, high = (ledger.say(length) for length in ENTRAPMENT)
            message = (
                f"gaps of up to {ledger.say(gap)} between slats take in those that may catch a head, {low} to {high}"
            )
            help = f"write at most {ledger.say(most)}: {ENTRAPMENT_SOURCE}"
            ledger.error("gap-entraps", message, key, help)
    gaps = list(written.values())
    return gaps[0] or usual.slat_gap, gaps[-1] or usual.back_gap


def _stances(ledger: Ledger, form: FrameForm) -> tuple[Stance, Stance]:
    """How uprights stand at ends and at corners; those of a leaning back stand on edge."""
    if isinstance(form.uprights, dict):
        apart = ledger.section(UprightsForm, form.uprights, "frame.uprights")
        written = {"frame.uprights.end": apart.end, "frame.uprights.corner": apart.corner}
    else:
        both = ledger.value(_STANCE, form.uprights, "frame.uprights") if form.uprights is not None else None
        written = {"frame.uprights": both}
    for key, stance in written.items():
        if form.lean and stance is Stance.FLAT:
            message = "the back leans, and its uprights are to stand flat"
            help = "write `edge`, so that rails and slats can lean between them, or leave out `lean`"
            ledger.error("upright-flat-leaning", message, key, help)
    usual = Stance.EDGE if form.lean else Stance.FLAT
    stances = [stance or usual for stance in written.values()]
    return stances[0], stances[-1]


def _back_span(usual: Defaults, cushions: tuple[Cushion, ...], unit: Unit) -> Length:
    """The usual one, or the widest module: uprights stand on module lines."""
    widest = [(max(cushion.size[:2]) + cushion.ease).ceil_to(unit.mark) for cushion in cushions]
    return max(usual.back_span, *widest, ZERO)


def _seat_height(made: Carpentry, rail: Section, usual: Defaults, cushions: tuple[Cushion, ...], unit: Unit) -> Length:
    """The usual height, or as much more as the thickest cushion, the rail and a gap over the feet take."""
    over = max((cushion.size[2] for cushion in cushions), default=ZERO) + rail.width.ceil_to(unit.mark)
    if made.reveal_below is not None:
        return made.reveal_below + over
    under = max(usual.under_rail, made.cleat.width) if made.rail_joint is RailJoint.LEDGER else usual.under_rail
    return max(usual.seat_height, (over + under + made.foot_height.ceil_to(unit.mark)).ceil_to(unit.mark))


def heights(
    made: Carpentry, rail: Section, cushions: tuple[Cushion, ...], unit: Unit
) -> tuple[tuple[Cushion, Levels], ...]:
    """The levels that a main run of each kind of cushion gives, with the tallest of all back cushions."""
    backs = [cushion.back.height for cushion in cushions if cushion.back is not None]
    tallest = max(backs, default=None)
    return tuple((cushion, derived(made, rail, unit, cushion.size[2], tallest)) for cushion in cushions)


def panel_height(made: Carpentry, rail: Section, cushions: tuple[Cushion, ...], unit: Unit) -> Length:
    """Of the tallest back panel that any of the cushions gives."""
    return max((at.back_top - at.back_bottom for _, at in heights(made, rail, cushions, unit)), default=ZERO)


def upright_depth(made: Carpentry, rail: Section, cushions: tuple[Cushion, ...], unit: Unit) -> Length:
    """How deep uprights must be so that the rails of a leaning back stay between them."""
    height = panel_height(made, rail, cushions, unit)
    return lean_depth(height, made.back_rail.thickness.ceil_to(unit.mark), made.lean).ceil_to(unit.mark)


def back_depth(made: Carpentry, rail: Section, cushions: tuple[Cushion, ...], unit: Unit) -> Length:
    """How deep the back panels are: rails, slats behind them and uprights, with what their lean adds."""
    layers = made.back_rail.thickness.ceil_to(unit.mark) + made.back_slat.thickness.ceil_to(unit.mark)
    stances = (made.upright_at_end, made.upright_at_corner)
    upright = made.upright.width if made.lean or Stance.EDGE in stances else made.upright.thickness
    panel = lean_depth(panel_height(made, rail, cushions, unit), layers, made.lean)
    return max(panel, upright).ceil_to(unit.mark)


def _deep_enough(
    made: Carpentry, rail: Section, lumber: Lumber, cushions: tuple[Cushion, ...], unit: Unit
) -> Carpentry:
    """With uprights that are deep enough for the lean, the narrowest of those."""
    if not made.lean:
        return made
    needed = upright_depth(made, rail, cushions, unit)
    sections = [lumber.usual(text) for text in DEEPER]
    return replace(made, upright=next((s for s in sections if s.width >= needed), sections[-1]))
