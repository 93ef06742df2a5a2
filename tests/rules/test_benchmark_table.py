"""The table of benchmarks in DEVELOPERS.md: made by the command, and of benchmarks that there are."""

from dataclasses import replace
from pathlib import Path

import pytest

from tests.benchmarks.__main__ import main
from tests.benchmarks.beside.every import COMPARISONS, names_of
from tests.benchmarks.beside.measured import BEGIN, END, Measured, rows_of, with_rows

DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"
ROW = Measured(name="walls", work="two pieces", ours_s=0.0125, beside="a grid", beside_s=2.5, aim="20", on="today")


def test_every_row_is_of_a_benchmark_in_their_order() -> None:
    rows = tuple(rows_of(DEVELOPERS.read_text(encoding="utf-8")))
    assert rows == tuple(name for name in COMPARISONS if name in rows)
    assert rows


def test_a_row_stands_in_for_the_one_before_and_nothing_else_changes() -> None:
    other = replace(ROW, name="packing")
    order = ("packing", "walls")
    text = with_rows(f"before\n{BEGIN}\n{END}\nafter\n", [ROW, other], order=order)
    assert text.startswith(f"before\n{BEGIN}\n| benchmark |")
    assert text.endswith(f"{END}\nafter\n")
    assert tuple(rows_of(text)) == order
    assert rows_of(text)["walls"] == "| walls | two pieces | 12.5 ms | a grid | 2.5 s | 200 | 20 | today |"
    faster = with_rows(text, [replace(ROW, ours_s=0.005)], order=order)
    assert "| 5 ms | a grid | 2.5 s | 500 |" in rows_of(faster)["walls"]
    assert rows_of(faster)["packing"] == rows_of(text)["packing"]
    assert tuple(rows_of(with_rows(text, [], order=("walls",)))) == ("walls",)


@pytest.mark.parametrize("text", ["", BEGIN, f"{END} {BEGIN}", f"{BEGIN} {END} {END}"])
def test_a_text_without_the_two_marks_is_not_written(text: str) -> None:
    with pytest.raises(ValueError, match="once each"):
        with_rows(text, [ROW], order=("walls",))


def test_a_name_of_no_benchmark_is_refused_with_those_there_are(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["nothing"]) == 2
    assert "'nothing' is none of: routes, 60 ports;" in capsys.readouterr().err


def test_a_word_stands_for_all_that_begin_so_but_what_takes_long() -> None:
    assert names_of("growth") == [f"growth, 10^{power} pairs" for power in (4, 5, 6)]
    assert names_of("growth, 10^7 pairs") == ["growth, 10^7 pairs"]
    assert names_of("walls") == ["walls"]
    assert names_of("table") == ["table"]
    assert set(COMPARISONS) - set(names_of("")) == {"growth, 10^7 pairs"}
