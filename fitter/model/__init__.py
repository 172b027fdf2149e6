"""The layout question as one SMT model, solved and proven."""

from fitter.model.search import Progress, solve

__all__ = ["Progress", "solve"]
