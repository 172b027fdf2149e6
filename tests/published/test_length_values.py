"""The inch and the millimetre.

International yard and pound agreement, 1959; NIST Special Publication 811 (2008), appendix B.8:
1 in = 2.54 E-02 m and 1 ft = 3.048 E-01 m, both exact.
"""

from __future__ import annotations

from rooms.lengths import Length, Unit, parse_length


def test_an_inch_is_25_4_millimetres_exactly() -> None:
    """An inch is 25 4 millimetres exactly."""
    assert parse_length('1"', Unit.MM) == parse_length("25.4 mm", Unit.IN) == parse_length("0.0254 m", Unit.IN)


def test_a_foot_is_0_3048_metre_exactly() -> None:
    """A foot is 0 3048 metre exactly."""
    assert parse_length("1'", Unit.MM) == parse_length("0.3048", Unit.M)
    assert Length.inches(12).mm * 10 == 3048
