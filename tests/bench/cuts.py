"""Board plans of workshop-like lists: time to the proof, beside another solver and a careful person; run by hand.

Usage: PYTHONPATH=. python tests/bench/cuts.py [LISTS] [SECONDS]

LISTS (100 if not given) invented lists of 20 to 200 parts in 8 to 40 lengths on the sixteenth, from three to five
lengths of boards whose prices are not proportional to length, saw cut 1/8 in; every other list with six offcuts on
hand. Aims: cost, boards, waste, each proven. Time is processor time of one thread, reading of modules not counted
(aim: median at most 0.2 s, worst at most 2 s). On every tenth list CP-SAT (one worker, at most SECONDS, 20 if not
given) is asked for the least cost of the same list. By hand: first-fit decreasing, the best single length, then each
board changed for the cheapest that holds its parts. Last, what the aims that are not proven (patterns, offcut) add in
time and bring.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Sequence
from pathlib import Path
from statistics import mean, median, quantiles

if __name__ == "__main__":
    sys.path.append(str(Path(__file__).parents[1] / "crosscheck"))

from cut_cases import Lists, workshop
from test_cuts_sat import assigned

from fitter.checking import check_plan
from fitter.cutting import plan_boards
from fitter.cutting.greedy import by_hand
from fitter.cutting.job import job_of
from fitter.domain.cuts import USUAL_AIMS, Aim, BoardPlan, CutOptions
from rooms.lengths import Length

PROVEN = CutOptions(kerf=Length.inches("1/8"), aims=USUAL_AIMS[:3])
ALL = CutOptions(kerf=Length.inches("1/8"))


def lists(seed: int) -> Lists:
    """The list of a seed."""
    return workshop(seed, offcuts=6 * (seed % 2))


def timed(seed: int, options: CutOptions) -> tuple[BoardPlan, float]:
    """A checked plan, and the processor seconds that it took."""
    pieces, stocks = lists(seed)
    start = time.process_time()
    plan = plan_boards(pieces, stocks, options)
    seconds = time.process_time() - start
    assert check_plan(pieces, stocks, options, plan) == ()
    return plan, seconds


def hand_cost(seed: int) -> int:
    """What the best plan by hand costs."""
    job = job_of(*lists(seed), PROVEN, priced=True)
    plan = by_hand(job)
    assert plan is not None
    return sum(job.sorts[sort].cost for sort, _ in plan)


def spread(values: Sequence[float]) -> str:
    """Median, ninth tenth, and the greatest."""
    return f"median {median(values):.3f}, 90 % {quantiles(values, n=10)[-1]:.3f}, worst {max(values):.3f}"


def main(count: int, limit: float) -> None:
    """Print all figures."""
    plans, times = zip(*(timed(seed, PROVEN) for seed in range(count)), strict=True)
    proven = sum(all(reached.proven for reached in plan.reached) for plan in plans)
    print(f"lists {count}, cost proven {sum(plan.proven for plan in plans)}, boards and waste too {proven}")
    print(f"seconds: {spread(times)}", flush=True)
    above = [100 * (hand_cost(seed) / plan.cost - 1) for seed, plan in enumerate(plans) if plan.cost]
    print(f"by hand above the least cost, per cent: {spread(above)}, mean {mean(above):.1f}", flush=True)
    print(f"\n{'list':>5}{'parts':>7}{'least':>9}{'seconds':>9}{'CP-SAT':>9}{'seconds':>9}")
    for seed in range(0, count, 10):
        start = time.process_time()
        cost, sure = assigned(lists(seed), PROVEN, limit, len(plans[seed].boards) + 5)
        seconds = time.process_time() - start
        parts = sum(piece.count for piece in lists(seed)[0])
        told = f"{cost}" if sure else f">{cost}" if cost < 0 else f"{cost}?"
        print(f"{seed:>5}{parts:>7}{plans[seed].cost:>9}{times[seed]:>9.3f}{told:>9}{seconds:>9.1f}", flush=True)
    print("(?: found, not proven)")
    full = [timed(seed, ALL) for seed in range(0, count, 4)]
    print(f"\nwith patterns and offcut, every fourth list, seconds: {spread([seconds for _, seconds in full])}")
    before = sum(plan.patterns for plan in plans[::4])
    after = sum(plan.patterns for plan, _ in full)
    longest = [next(reached.value for reached in plan.reached if reached.aim is Aim.OFFCUT) for plan, _ in full]
    inches = median(longest) / Length.inches(1).units
    print(f"patterns {before} -> {after}; longest offcut of a plan, median {inches:.1f} in")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100, float(sys.argv[2]) if len(sys.argv) > 2 else 20.0)
