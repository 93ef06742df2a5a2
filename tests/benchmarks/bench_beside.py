"""Every comparison of the table, small: that it runs and both sides answer alike. Figures: `-m tests.benchmarks`."""

import pytest

from tests.benchmarks.beside.every import COMPARISONS, measure
from tests.oracles import oracle


@pytest.mark.parametrize("name", COMPARISONS)
def test_both_answer_alike(name: str) -> None:
    for library in COMPARISONS[name].needs:
        oracle(library)
    measured = measure(name, is_small=True)
    assert measured.name == name
    assert measured.ours_s > 0
    assert measured.beside_s > 0
