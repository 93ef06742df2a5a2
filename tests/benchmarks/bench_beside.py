"""Every comparison of the table, small: that it runs and both sides answer alike. Figures: `-m tests.benchmarks`."""

import pytest

from tests.benchmarks.beside.every import COMPARISONS, measure
from tests.oracles import oracle

NAMES = {(each.work, repr(each.small)): name for name, each in reversed(COMPARISONS.items())}.values()
"""A name for each that differs where it is small: tables that grow are all the same then."""


@pytest.mark.parametrize("name", list(reversed(NAMES)))
def test_both_answer_alike(name: str) -> None:
    for library in COMPARISONS[name].needs:
        oracle(library)
    measured = measure(name, is_small=True)
    assert measured.name == name
    assert measured.ours_s > 0
    assert measured.beside_s > 0
