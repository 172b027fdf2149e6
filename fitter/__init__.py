"""Outdoor sectional seating from shop cushions: proven layouts and dimensioned plans."""
