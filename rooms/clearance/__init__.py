"""Where a thing may stand in a room, and how wide the way past it is."""

from rooms.clearance.chains import Chains, Wall, chains
from rooms.clearance.erosion import lets_through, widest_by_erosion
from rooms.clearance.narrows import NarrowPlace, narrow_places
from rooms.clearance.passage import Passage, widest_passage
from rooms.clearance.shapes import free_floor, outline, solid, swing_sector

__all__ = [
    "Chains",
    "NarrowPlace",
    "Passage",
    "Wall",
    "chains",
    "free_floor",
    "lets_through",
    "narrow_places",
    "outline",
    "solid",
    "swing_sector",
    "widest_by_erosion",
    "widest_passage",
]
