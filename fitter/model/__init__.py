"""The layout question as one SMT model, solved and proven."""

from fitter.model.frames import mount_number
from fitter.model.grading import GradedSearch
from fitter.model.less_asked import WHOLE, less_asked, price_change
from fitter.model.search import Keep, Progress, Search, TimeUp, any_layout, search_without, solutions, solve
from fitter.model.wanted import Settled, Wanted

__all__ = [
    "GradedSearch",
    "Keep",
    "Progress",
    "Search",
    "Settled",
    "TimeUp",
    "WHOLE",
    "Wanted",
    "any_layout",
    "less_asked",
    "mount_number",
    "price_change",
    "search_without",
    "solutions",
    "solve",
]
