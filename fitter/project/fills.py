"""What `frame.fill` says: how wide what fills the room that is left may be."""

from __future__ import annotations

from fitter.domain.fills import narrowest
from fitter.domain.frame import FillLimits, Frame
from fitter.domain.wishes import FillKind
from fitter.project.defaults import defaults
from fitter.project.forms import FillForm
from fitter.project.ledger import Ledger
from fitter.project.tree import Data
from rooms.lengths import Length

WIDEST = Length.inches(8 * 12)
"""Common practice: a wider shelf is most likely a slip or another unit."""


def read_fills(ledger: Ledger, data: Data) -> FillLimits:
    """The limits, complete with defaults.

    Args:
        ledger: takes the mistakes.
        data: `frame.fill`.
    """
    form = ledger.section(FillForm, data, "frame.fill")
    usual = defaults(ledger.unit)
    for name in ("least", "widest", "arm"):
        size = getattr(form, name)
        if size is not None and ledger.unit_known and size > WIDEST:
            message = f"`{name}` is {ledger.say(size)}, and {ledger.say(WIDEST)} is the most"
            ledger.error("size-absurd", message, f"frame.fill.{name}", ledger.ask_unit)
    least = form.least if form.least is not None else usual.fill_least
    if form.widest is not None and form.widest < least:
        message = f"a shelf is at least {ledger.say(least)} and at most {ledger.say(form.widest)} wide"
        help = "`widest` must not be below `least`"
        ledger.error("least-above-most", message, "frame.fill.widest", help)
    return FillLimits(least, form.widest, form.arm if form.arm is not None else usual.fill_arm)


def check_fills(ledger: Ledger, frame: Frame) -> None:
    """A limit that was written leaves room for what is built within it.

    Args:
        ledger: takes the mistakes.
        frame: complete; its sections say what room a shelf and a wide arm need.
    """
    limits = frame.fills
    arm = limits.arm if limits.arm != defaults(ledger.unit).fill_arm else None
    written = (
        ("widest", limits.widest, FillKind.SHELF, "shelf"),
        ("arm", arm, FillKind.ARM, "wide arm"),
    )
    for name, most, kind, what in written if ledger.clean("frame") else ():
        least = narrowest(frame, ledger.unit, kind)
        if most is not None and most < least:
            message = f"a {what} of these sections takes {ledger.say(least)} at least, `{name}` is {ledger.say(most)}"
            ledger.error("fill-too-narrow", message, f"frame.fill.{name}", "write more, or take thinner sections")
