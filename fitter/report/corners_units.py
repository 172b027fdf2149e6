"""How the numbers of a corner trade-off are written: areas, foam, and how stiff a corner is."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import pi

from fitter.report.words import Teller
from rooms.lengths import UNITS_PER_INCH, UNITS_PER_MM

_POUND_FOOT = 0.3048 * 4.4482216152605  # N·m


@dataclass(frozen=True)
class Units:
    """How areas, volumes and stiffness are written.

    Args:
        imperial: square feet, cubic inches and pounds-feet, or square metres, cubic centimetres and N·m.
        tell: writes lengths.
    """

    imperial: bool
    tell: Teller

    def area(self, units: Fraction | int) -> str:
        """A stretch of ground.

        >>> Units(True, str).area(144 * UNITS_PER_INCH**2), Units(False, str).area(10**6 * UNITS_PER_MM**2)
        ('1.0 sq ft', '1.00 m²')
        """
        if self.imperial:
            return f"{float(Fraction(units) / (12 * UNITS_PER_INCH) ** 2):.1f} sq ft"
        return f"{float(Fraction(units) / (1000 * UNITS_PER_MM) ** 2):.2f} m²"

    def more(self, units: Fraction | int) -> str:
        """A difference of areas, small or large."""
        return self.area(units) if Fraction(units) >= self._one else self.patch(units)

    @property
    def _one(self) -> int:
        """A square foot, or a tenth of a square metre."""
        return int((12 * UNITS_PER_INCH) ** 2 if self.imperial else (1000 * UNITS_PER_MM) ** 2 // 10)

    def patch(self, units: Fraction | int) -> str:
        """A small area: what a corner leaves bare."""
        if self.imperial:
            return f"{float(Fraction(units) / UNITS_PER_INCH**2):.0f} sq in"
        return f"{float(Fraction(units) / (10 * UNITS_PER_MM) ** 2):.0f} cm²"

    def volume(self, units: Fraction | int) -> str:
        """Foam."""
        if self.imperial:
            return f"{float(Fraction(units) / UNITS_PER_INCH**3):.0f} cu in"
        return f"{float(Fraction(units) / (10 * UNITS_PER_MM) ** 3):.0f} cm³"

    def stiffness(self, value: float) -> str:
        """Pounds-feet a degree, or N·m a degree, to three digits: what turns something by one degree.

        A pound-foot is 0.3048 m by 4.4482216 N (NIST SP 811, appendix B.8).

        Args:
            value: in N·mm a radian.

        >>> Units(False, str).stiffness(15_123_456.0), Units(True, str).stiffness(15_123_456.0)
        ('264', '195')
        """
        degree = value / 1000 * pi / 180
        return f"{float(f'{degree / (_POUND_FOOT if self.imperial else 1.0):.3g}'):g}"

    @property
    def torque(self) -> str:
        """What a stiffness is counted in, for one degree."""
        return "lb·ft" if self.imperial else "N·m"
