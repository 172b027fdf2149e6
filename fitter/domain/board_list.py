"""What comes of a frame and the boards in the shop: section by section a plan, or why there is none."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain

from fitter.domain.cuts import CutOptions, CutResult, Piece, PlannedBoard, Stock
from fitter.domain.layout import Verdict
from fitter.domain.outcome import FrameResult
from fitter.domain.woodwork import Part
from rooms.lengths import ZERO, Length


@dataclass(frozen=True)
class SectionPlan:
    """The boards of one section, and the parts that are cut from them.

    Args:
        section: that they are sold by.
        pieces: all parts of it.
        stocks: the boards that count; empty where none is named.
        unpriced: boards in the shop that are left out because they have no price while others of the section have one.
        result: the plan; None without one, because no board is named, or `too_long` says why.
        too_long: a part that no board yields.
        longest: part that the boards yield; None where no board is named.
    """

    section: str
    pieces: tuple[Piece, ...]
    stocks: tuple[Stock, ...] = ()
    unpriced: tuple[Stock, ...] = ()
    result: CutResult | None = None
    too_long: Piece | None = None
    longest: Length | None = None

    @property
    def count(self) -> int:
        """How many parts there are."""
        return sum(piece.count for piece in self.pieces)

    @property
    def wood(self) -> Length:
        """All parts end to end."""
        return sum((piece.length * piece.count for piece in self.pieces), ZERO)

    @property
    def boards(self) -> tuple[PlannedBoard, ...]:
        """What is bought or taken; none without a plan, or where the check does not accept it."""
        plan = self.result.plan if self.result and not self.result.checked else None
        return plan.boards if plan else ()

    @property
    def cost(self) -> int | None:
        """Of what is bought, in cents; None where it is not known."""
        plan = self.result.plan if self.result and not self.result.checked else None
        if plan is None:
            return None
        # Boards that are all on hand cost nothing, priced or not.
        return plan.cost if plan.cost is not None else 0 if all(board.on_hand for board in plan.boards) else None

    @property
    def bound(self) -> int | None:
        """That no plan costs less than, in cents; None where the cost is not known."""
        if self.cost is None or self.result is None or self.result.plan is None:
            return None
        return self.result.plan.bound or 0


@dataclass(frozen=True)
class BoardList:
    """The boards of a whole frame.

    Args:
        framed: the layout and its frame.
        sections: in the order of the frame's parts; none without a frame that is accepted.
        options: how boards are cut.
        ripped: parts that are made narrower or thinner after they are sawn to length, one of each mark.
        seconds: that the plans took.
    """

    framed: FrameResult
    sections: tuple[SectionPlan, ...]
    options: CutOptions
    ripped: tuple[Part, ...] = ()
    seconds: float = 0.0

    @property
    def boards(self) -> tuple[PlannedBoard, ...]:
        """All boards, section by section."""
        return tuple(chain.from_iterable(section.boards for section in self.sections))

    @property
    def cost(self) -> int | None:
        """Of all that is bought and has a price, in cents; None where no price is known."""
        known = [section.cost for section in self.sections if section.cost is not None]
        return sum(known) if known else None

    @property
    def bound(self) -> int | None:
        """That no plan of the same sections costs less than."""
        known = [section.bound for section in self.sections if section.bound is not None]
        return sum(known) if known else None

    @property
    def complete(self) -> bool:
        """Whether the cost covers every part."""
        return all(section.cost is not None for section in self.sections)

    @property
    def verdict(self) -> Verdict:
        """How all of it stands: a mistake of ours first, then what is impossible, then what is not proven."""
        found = [self.framed.verdict]
        for section in self.sections:
            if section.too_long is not None:
                found.append(Verdict.IMPOSSIBLE)
            elif section.result is not None:
                found.append(section.result.verdict)
        order = (Verdict.FAULT, Verdict.IMPOSSIBLE, Verdict.UNKNOWN, Verdict.FOUND)
        return next((verdict for verdict in order if verdict in found), found[0])
