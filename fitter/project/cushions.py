"""The cushions that a project may use."""

from __future__ import annotations

from fitter.domain.cushions import BackCushion, Cushion
from fitter.domain.findings import Severity
from fitter.project.conditions import read_conditions
from fitter.project.forms import CushionForm
from fitter.project.ledger import Ledger
from fitter.project.openings import named_once
from fitter.project.small import SEAT, ask_small
from fitter.project.tree import Data
from rooms.lengths import Length

LARGEST = Length.inches(96)
SMALLEST = Length.inches(6)
"""Common practice: a seat cushion beyond these was most likely written in another unit."""
MEASURED_OFF = Length.inches(2)

_EXAMPLE = "- {name: seat, size: [24, 24, 5], own: 6}"


def read_cushions(ledger: Ledger, data: Data) -> tuple[Cushion, ...]:
    """The kinds of cushions in the order of the file; at least one is needed."""
    entries = list(ledger.items(data, "cushions", "cushions"))
    if not entries and (data is None or data == []):
        message = "no cushion is named"
        help = f"add at least one under `cushions:`, such as `{_EXAMPLE}`"
        ledger.absent("no-cushion", message, "cushions", help)
    forms = [(key, form) for key, item in entries if (form := ledger.form(CushionForm, item, key)) is not None]
    named_once(ledger, "cushions", ((key, form.name) for key, form in forms))
    return tuple(_cushion(ledger, key, form) for key, form in forms)


def _cushion(ledger: Ledger, key: str, form: CushionForm) -> Cushion:
    own, conditions = read_conditions(ledger, key, form)
    cushion = Cushion(
        name=form.name,
        width=form.size[0],
        depth=form.size[1],
        thickness=form.size[2],
        back=BackCushion(*form.back) if form.back is not None else None,
        measured=form.measured,
        ease=form.ease,
        own=own,
        price=form.price,
        may_turn=form.may_turn,
        may_notch=form.may_notch,
        seats=form.seats,
        zip=form.zip,
        conditions=conditions,
        ease_most=form.ease_most,
    )
    for name in ("size", "measured", "back"):
        _check_size(ledger, f"{key}.{name}", form.name, getattr(form, name), seat=name != "back")
    _check_measured(ledger, key, cushion)
    _check_ease(ledger, key, cushion)
    return cushion


def _check_size(ledger: Ledger, key: str, name: str, size: tuple[Length, Length, Length] | None, *, seat: bool) -> None:
    """Ask about the unit where a size is absurd; only a seat has a least width and depth."""
    if size is None or not ledger.unit_known:
        return
    lengths = (f"{ledger.say(length)}" for length in size)
    message = f"cushion `{name}` is {' x '.join(lengths)}"
    if max(size) > LARGEST:
        ledger.error("size-absurd", f"{message}, and {ledger.say(LARGEST)} is the most", key, ledger.ask_unit)
    elif seat and min(size[:2]) < SMALLEST:
        ledger.error("size-absurd", f"{message}, and {ledger.say(SMALLEST)} is the least", key, ledger.ask_unit)
    elif seat:
        ask_small(ledger, message, min(size[:2]), SEAT, key)


def _check_measured(ledger: Ledger, key: str, cushion: Cushion) -> None:
    sold = (cushion.width, cushion.depth, cushion.thickness)
    for axis, taped, nominal in zip(("width", "depth", "thickness"), cushion.size, sold, strict=True):
        if abs(taped - nominal) > MEASURED_OFF:
            message = (
                f"the {axis} of cushion `{cushion.name}` was measured as {ledger.say(taped)} "
                f"and is sold as {ledger.say(nominal)}"
            )
            help = "the measured size is used; check that it belongs to this cushion"
            ledger.remark("measured-differs", message, f"{key}.measured", help, severity=Severity.CAUTION)


def _check_ease(ledger: Ledger, key: str, cushion: Cushion) -> None:
    least = min(cushion.size[:2])
    if cushion.ease_most is not None and (cushion.ease_most < cushion.ease or 2 * cushion.ease_most > least):
        message = f"cushion `{cushion.name}` is laid with an ease of {ledger.say(cushion.ease)}"
        message += f", and {ledger.say(cushion.ease_most)} is to be the most"
        help = "`ease_most` is at least the ease and at most half of the cushion at its narrowest"
        ledger.error("ease-most", message, f"{key}.ease_most", help)
    if 2 * abs(cushion.ease) > least:
        message = (
            f"an ease of {ledger.say(cushion.ease)} is more than half of cushion `{cushion.name}`, "
            f"which is {ledger.say(least)} at its narrowest"
        )
        help = "ease is the slack of one cushion; foam gives an inch or so"
        ledger.error("ease-too-big", message, f"{key}.ease", help)
