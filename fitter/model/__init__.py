"""The layout question as one SMT model, solved and proven."""

from fitter.model.search import Keep, Progress, solutions, solve

__all__ = ["Keep", "Progress", "solutions", "solve"]
