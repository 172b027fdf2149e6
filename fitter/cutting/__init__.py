"""The exact board plan: which boards to buy, and where to saw them."""

from fitter.cutting.planning import NoPlanError, NoPriceError, plan_boards
from fitter.cutting.prices import board_prices

__all__ = ["NoPlanError", "NoPriceError", "board_prices", "plan_boards"]
