"""What a bare number means."""

from __future__ import annotations

from pydantic_core import PydanticCustomError

from fitter.project.fields import text_of
from fitter.project.ledger import Ledger
from fitter.project.tree import Data
from fitter.project.words import listed, plain, shown
from rooms.lengths import Unit

_MEANT = (
    ("inch", Unit.IN), ("feet", Unit.FT), ("foot", Unit.FT), ("milli", Unit.MM), ("centi", Unit.CM),
    ("met", Unit.M), ("'", Unit.FT), ('"', Unit.IN), ("imperial", Unit.IN), ("us", Unit.IN),
)  # fmt: skip


def read_units(ledger: Ledger, data: Data) -> None:
    """Settle the ledger's unit from `units`; while it is not known, sizes are not judged."""
    help = f"write `units: in`; {listed(Unit)} are known, and a length with its own unit may be mixed in"
    if data is None:
        ledger.unit_known = False
        message = "the file does not say what a bare number means"
        ledger.absent("missing-units", message, "units", help)
        return
    try:
        text = text_of(data, listed(Unit))
    except PydanticCustomError as error:
        text = ""
        message = str((error.context or {}).get("message", ""))
    else:
        message = f"`{shown(text)}` is no unit that this file can use"
    known = next((unit for unit in Unit if plain(text).rstrip(".") == unit), None)
    if known is not None:
        ledger.unit = known
        return
    near = next((unit for start, unit in _MEANT if plain(text).startswith(start)), None)
    ledger.unit_known = False
    ledger.error("unknown-units", message, "units", f"did you mean `{near}`?" if near else help)
