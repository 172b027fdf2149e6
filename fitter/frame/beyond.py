"""What stands beyond an end, in coordinates that go outward from the last face of its run."""

from __future__ import annotations

from dataclasses import dataclass

from fitter.domain.frame import Section
from fitter.domain.layout import End, Fill
from fitter.domain.wishes import EndKind
from fitter.domain.woodwork import Part, PartRole
from fitter.frame.sticks import Stick, stick
from fitter.frame.strips import Site, Strip


@dataclass(frozen=True)
class Beyond:
    """What lies beyond an end, seen from the last face of its run outward.

    Args:
        site: the whole.
        strip: the run.
        end: the end.
        fill: what stands beyond it.
        low: whether that is the low end of the run.
    """

    site: Site
    strip: Strip
    end: End
    fill: Fill
    low: bool

    @property
    def q(self) -> tuple[int, int]:
        """From its back to its front across the run."""
        return self.strip.seen(self.fill.box)[2:]

    @property
    def deep(self) -> int:
        """From its back to its front."""
        return self.q[1] - self.q[0]

    @property
    def face(self) -> int:
        """The outer face of the end's wood, counted outward from the run's last face."""
        made = self.site.options
        return self.site.thick(made.arm if self.end.kind is EndKind.ARMED else made.leg)

    @property
    def outer(self) -> int:
        """Its own outer face, counted likewise."""
        s0, s1 = self.strip.seen(self.fill.box)[:2]
        return -s0 if self.low else s1 - self.strip.end

    def part(
        self, role: PartRole, section: Section, place: str, out: tuple[int, int], q: tuple[int, int],
        z: tuple[int, int], along: int, wide: int, shows: str = "",
    ) -> Part:  # fmt: skip
        """A part from its place outward of the run's last face, across the run and in height."""
        s0, s1 = (-out[1], -out[0]) if self.low else (self.strip.end + out[0], self.strip.end + out[1])
        kind = Stick(role, self.strip.side, section, shows, f"{self.end.hand} end, {place}")
        return stick(kind, self.strip.box(s0, s1, q[0], q[1], z[0], z[1]), along, wide)
