"""What is drawn in the tests is what the checker would let pass."""

from __future__ import annotations

import pytest
from sample_layouts import samples

from fitter.checking import check_layout

SAMPLES = samples()


@pytest.mark.parametrize("name", SAMPLES)
def test_sample_is_a_right_layout(name: str) -> None:
    assert [finding.message for finding in check_layout(*SAMPLES[name])] == []
