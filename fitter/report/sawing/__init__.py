"""Telling the boards of a frame: what to buy, where to saw."""
