"""The exact board plan: which boards to buy, and where to saw them."""

from fitter.cutting.planning import NoPlanError, NoPriceError, plan_boards

__all__ = ["NoPlanError", "NoPriceError", "plan_boards"]
