"""The planner has one narrow front door, sorted, and every name behind it opens."""

import pytest

import planner


def test_names_are_sorted_and_open() -> None:
    assert planner.__all__ == sorted(planner.__all__)
    assert set(planner.__all__) == set(planner._HOMES)
    for name in planner.__all__:
        assert getattr(planner, name) is not None


def test_what_is_not_there_is_said_so() -> None:
    with pytest.raises(AttributeError, match="front door"):
        planner.nothing_of_the_sort  # noqa: B018
