"""The wooden frame on paper: elevations, sections, and its parts moved apart, with hidden lines taken away exactly."""

from __future__ import annotations

from fitter.drawing.frame.pages import frame_pages

__all__ = ["frame_pages"]
