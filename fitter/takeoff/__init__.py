"""The take-off: everything to buy for a frame and its cushions, with the tools that it asks for."""

from fitter.takeoff.taking import takeoff
from fitter.takeoff.wood import board_name

__all__ = ["board_name", "takeoff"]
