"""The least step: answers that only get easier, that come and go, and that take too many questions."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from random import Random
from typing import cast

import pytest

from fitter.domain.layout import Layout
from fitter.workflow.cures.least import May, Reached, SpentError, Try, least, nearest


@dataclass
class Made:
    """A made-up lever that has a layout at some steps, and hears what is asked of it."""

    good: frozenset[int]
    slack: int = 0
    """How much farther than it should a question for several steps looks."""
    asked: list[object] = field(default_factory=list)

    def at(self, step: int) -> Layout | None:
        self.asked.append(step)
        return cast(Layout, f"layout {step}") if step in self.good else None

    def may(self, low: int, high: int) -> bool | None:
        self.asked.append((low, high))
        return any(low - self.slack <= step <= high + self.slack for step in self.good)

    def first(self, most: int) -> int | None:
        return min((step for step in self.good if step <= most), default=None)


def rising(first: int, steps: int) -> Made:
    return Made(frozenset(range(first, steps + 1)))


@pytest.mark.parametrize("steps", [1, 2, 3, 7, 64, 1000])
def test_what_only_gets_easier_is_bisected(steps: int) -> None:
    for first in sorted({1, 2, steps // 3, steps // 2, steps - 1, steps} & set(range(1, steps + 1))):
        lever = rising(first, steps)
        assert least(steps, lever.at) == Reached(first, cast(Layout, f"layout {first}"))
        assert len(lever.asked) <= steps.bit_length() + 1
    nothing = Made(frozenset())
    assert least(steps, nothing.at) is None
    assert nothing.asked == [steps]


def random_lever(random: Random, steps: int) -> Made:
    return Made(
        frozenset(random.sample(range(1, steps + 1), random.choice((0, 0, 1, 1, 2, 5, steps // 2)) % (steps + 1))),
        random.choice((0, 0, 1, 3, 20)),
    )


def test_what_comes_and_goes_is_found_at_its_least() -> None:
    """Whatever the steps that fit, how kind the question for several is, and what is guessed."""
    random = Random("steps")
    for _ in range(300):
        steps = random.choice((1, 2, 5, 16, 40))
        lever, guess = random_lever(random, steps), random.randint(0, steps + 2)
        found = least(steps, lever.at, lever.may, 500, guess)
        assert (None if found is None else found.step) == lever.first(steps)
        assert found is None or (found.least and found.layout == f"layout {found.step}")
        singles = [step for step in lever.asked if isinstance(step, int)]
        assert len(singles) == len(set(singles))


def test_a_stretch_without_a_known_question_is_halved_without_one() -> None:
    """Such stretches cost no question."""
    lever = Made(frozenset((700,)))

    def may(low: int, high: int) -> bool | None:
        return lever.may(low, high) if high - low < 50 else None

    found = least(1000, lever.at, may)
    assert found == Reached(700, cast(Layout, "layout 700"))
    assert all(pair[1] - pair[0] < 50 for pair in lever.asked if isinstance(pair, tuple))


def test_a_right_guess_saves_the_halving() -> None:
    lever = rising(300, 1000)
    assert least(1000, lever.at, lever.may, 64, 300) == Reached(300, cast(Layout, "layout 300"))
    assert lever.asked == [(1, 1000), 300, (1, 299)]


def test_few_questions_never_claim_what_is_not_proven() -> None:
    """With any number of questions: a step that is called the least is, one that is found fits, None is proven."""
    random, outcomes = Random("spent"), set()
    for _ in range(700):
        steps, most = random.choice((16, 40, 200)), random.randint(1, 30)
        lever = random_lever(random, steps)
        may = random.choice((lever.may, lever.may, None))
        if may is None:
            lever = rising(random.randint(1, steps + 1), steps)
        try:
            found = least(steps, lever.at, may, most, random.choice((0, random.randint(1, steps))))
        except SpentError:
            outcomes.add("spent")
        else:
            outcomes.add("none" if found is None else "least" if found.least else "some")
            check(found, lever, steps)
        assert len(lever.asked) <= 2 * most
    assert outcomes == {"spent", "none", "least", "some"}


def check(found: Reached | None, lever: Made, steps: int) -> None:
    if found is None:
        assert lever.first(steps) is None
        return
    assert found.step in lever.good
    assert found.layout == f"layout {found.step}"
    assert not found.least or found.step == lever.first(steps)


def test_of_several_ways_the_nearest() -> None:
    """Ways that go differently far; at the same distance the first of them."""
    random = Random("ways")
    for _ in range(200):
        made = [(steps, random_lever(random, steps)) for steps in random.choices((1, 5, 16, 40), k=4)]
        firsts = [lever.first(steps) for steps, lever in made]
        found = nearest([(steps, lever.at, lever.may) for steps, lever in made], 2000)
        if found is None:
            assert set(firsts) == {None}
            continue
        n, reached = found
        assert reached.step == firsts[n] == min(first for first in firsts if first is not None)
        assert all(first is None or first > reached.step for first in firsts[:n])
        assert reached.least
        assert reached.layout == f"layout {reached.step}"


def test_no_way_is_looked_at_farther_than_needed() -> None:
    near, far = rising(3, 900), rising(800, 900)
    found = nearest([(900, lever.at, lever.may) for lever in (far, near)])
    assert found is not None
    assert (found[0], found[1].step) == (1, 3)
    assert max(max(pair) if isinstance(pair, tuple) else cast(int, pair) for pair in far.asked) <= 8


def test_several_ways_share_the_questions() -> None:
    random, outcomes = Random("shared"), set()
    for _ in range(300):
        made = [(steps, random_lever(random, steps)) for steps in random.choices((16, 40, 200), k=3)]
        most = random.randint(1, 60)
        ways: list[tuple[int, Try, May | None]] = [(steps, lever.at, lever.may) for steps, lever in made]
        try:
            found = nearest(ways, most)
        except SpentError:
            outcomes.add("spent")
        else:
            if found is None:
                assert all(lever.first(steps) is None for steps, lever in made)
                outcomes.add("none")
            else:
                check_nearest(found, made)
                outcomes.add("least" if found[1].least else "some")
        assert sum(len(lever.asked) for _, lever in made) <= most
    assert outcomes == {"spent", "none", "least", "some"}


def check_nearest(found: tuple[int, Reached], made: list[tuple[int, Made]]) -> None:
    n, reached = found
    assert reached.step in made[n][1].good
    firsts = [first for steps, lever in made if (first := lever.first(steps)) is not None]
    assert not reached.least or reached.step == min(firsts)


def test_the_made_up_levers_are_of_many_sorts() -> None:
    count: Callable[[Callable[[Made], bool]], int] = lambda of: sum(map(of, many))  # noqa: E731
    random = Random("sorts")
    many = [random_lever(random, 40) for _ in range(200)]
    assert count(lambda lever: not lever.good) > 20
    assert count(lambda lever: len(lever.good) == 1) > 20
    assert count(lambda lever: len(lever.good) > 4) > 20
    assert count(lambda lever: lever.slack > 0) > 50
