"""Terms built through z3's own C functions.

z3's Python operators ask for the sort of every operand, and cast and compare it, at each step: for the thousands of
bounds and clauses of one question that takes longer than solving it. All operands here are reals or Booleans of one
context.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

import z3


@lru_cache(maxsize=1 << 14)
def number(value: int) -> z3.RatNumRef:
    """A whole number as a real."""
    return z3.RealVal(value)


def at_least(term: z3.ArithRef, bound: int) -> z3.BoolRef:
    """Term >= bound."""
    context = term.ctx
    return z3.BoolRef(z3.Z3_mk_ge(context.ref(), term.ast, number(bound).ast), context)


def at_most(term: z3.ArithRef, bound: int) -> z3.BoolRef:
    """Term <= bound."""
    context = term.ctx
    return z3.BoolRef(z3.Z3_mk_le(context.ref(), term.ast, number(bound).ast), context)


def combined(a: int, x: z3.ArithRef, b: int, y: z3.ArithRef, least: int) -> z3.BoolRef:
    """a·x + b·y >= least."""
    context = x.ctx
    # Every term is wrapped as soon as it is made: what nobody refers to, z3 may reuse at its next call.
    products = [_times(factor, term) for factor, term in ((a, x), (b, y))]
    total = z3.Z3_mk_add(context.ref(), 2, (z3.Ast * 2)(*(product.ast for product in products)))
    return at_least(z3.ArithRef(total, context), least)


def _times(factor: int, term: z3.ArithRef) -> z3.ArithRef:
    if factor == 1:
        return term
    context = term.ctx
    return z3.ArithRef(z3.Z3_mk_mul(context.ref(), 2, (z3.Ast * 2)(number(factor).ast, term.ast)), context)


def never(term: z3.BoolRef) -> z3.BoolRef:
    """Not term."""
    context = term.ctx
    return z3.BoolRef(z3.Z3_mk_not(context.ref(), term.ast), context)


def either(terms: Iterable[z3.BoolRef]) -> z3.BoolRef:
    """One or more of several conditions; there is at least one."""
    given = list(terms)
    context = given[0].ctx
    return z3.BoolRef(
        z3.Z3_mk_or(context.ref(), len(given), (z3.Ast * len(given))(*(term.ast for term in given))), context
    )
