"""Small pieces of z3 that the encoding is made of."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

import z3

from fitter.model.quick import at_least, at_most, combined, either, never
from fitter.model.separation import Atom, Rect

SHORT_FACTOR = 3


@dataclass(frozen=True)
class Corners:
    """A rectangle as four terms, and the condition under which it stands."""

    x0: z3.ArithRef
    y0: z3.ArithRef
    x1: z3.ArithRef
    y1: z3.ArithRef
    when: z3.BoolRef | None = None

    def atom(self, atom: Atom) -> z3.BoolRef:
        """An atom of `separation` as a term over this rectangle."""
        x = self.x0 if atom.a > 0 else self.x1
        y = self.y0 if atom.b > 0 else self.y1
        if not atom.b and atom.a in (1, -1):
            return at_least(x, atom.least) if atom.a > 0 else at_most(x, -atom.least)
        if not atom.a and atom.b in (1, -1):
            return at_least(y, atom.least) if atom.b > 0 else at_most(y, -atom.least)
        return combined(atom.a, x, atom.b, y, atom.least)

    def rect(self, model: z3.ModelRef) -> Rect:
        """Its value in a model."""
        return Rect(*(value(model, term) for term in (self.x0, self.y0, self.x1, self.y1)))


class Count:
    """A whole number as a real term, order-encoded: one Boolean a step.

    Args:
        name: of the term.
        most: no more than that.
    """

    def __init__(self, name: str, most: int) -> None:
        self.term, self.most = z3.Real(name), most
        self.steps = [z3.Bool(f"{name} >= {k}") for k in range(1, most + 1)]
        self.definition = [self.term >= 0, self.term <= most]
        for k, step in enumerate(self.steps, start=1):
            self.definition.append(either((never(step), at_least(self.term, k))))
            self.definition.append(either((step, at_most(self.term, k - 1))))
        for low, high in pairwise(self.steps):
            self.definition.append(either((never(high), low)))

    def times(self, factor: int, product: z3.ArithRef, when: z3.BoolRef) -> list[z3.BoolRef]:
        """That a term is a multiple of the count under a condition.

        A long factor takes one bound a step: as a row of the simplex tableau it makes all numbers long, and slow.
        """
        if factor <= SHORT_FACTOR:
            return [z3.Implies(when, product == (factor * self.term if factor else 0))]
        off = never(when)
        bounds = [either((off, at_least(product, 0))), either((off, at_most(product, factor * self.most)))]
        for k, step in enumerate(self.steps, start=1):
            bounds.append(either((off, never(step), at_least(product, factor * k))))
            bounds.append(either((off, step, at_most(product, factor * (k - 1)))))
        return bounds

    def exactly(self, number: int) -> z3.BoolRef:
        """That it is that number."""
        low = [self.steps[number - 1]] if number else []
        high = [z3.Not(self.steps[number])] if number < self.most else []
        return z3.And(*low, *high)


def value(model: z3.ModelRef, term: z3.ArithRef) -> Fraction:
    """A term's value in a model."""
    number = model.eval(term, model_completion=True)
    return Fraction(number.numerator_as_long(), number.denominator_as_long())


def true(model: z3.ModelRef, term: z3.BoolRef) -> bool:
    """A condition's value in a model."""
    return bool(z3.is_true(model.eval(term, model_completion=True)))


def one(terms: Iterable[z3.BoolRef]) -> z3.BoolRef:
    """That just one of several conditions holds."""
    return z3.PbEq([(term, 1) for term in terms], 1)


def given(condition: z3.BoolRef, *terms: z3.BoolRef) -> z3.BoolRef:
    """That terms hold under a condition."""
    return z3.Implies(condition, z3.And(*terms))
