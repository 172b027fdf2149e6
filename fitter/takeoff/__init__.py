"""The take-off: everything to buy for a frame and its cushions, with the tools that it asks for."""

from fitter.takeoff.taking import takeoff

__all__ = ["takeoff"]
