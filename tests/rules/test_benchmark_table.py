"""The table of benchmarks in DEVELOPERS.md: made by the command, and of benchmarks that there are."""

from pathlib import Path

import pytest

from tests.benchmarks.__main__ import main
from tests.benchmarks.beside.every import COMPARISONS
from tests.benchmarks.beside.measured import BEGIN, END, Measured, names_in_table, table_of, with_table

DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"
ROW = Measured(name="walls", work="two pieces", ours_s=0.0125, beside="a grid", beside_s=2.5, aim="20")


def test_every_row_is_a_benchmark_and_every_benchmark_has_its_row() -> None:
    assert names_in_table(DEVELOPERS.read_text(encoding="utf-8")) == tuple(COMPARISONS)


def test_a_table_stands_in_for_the_one_before_and_nothing_else_changes() -> None:
    table = table_of([ROW], told="Measured here.")
    assert "| walls | two pieces | 12.5 ms | a grid | 2.5 s | 200 | 20 |" in table
    text = f"before\n{BEGIN}\nold\n{END}\nafter\n"
    written = with_table(text, table)
    assert written == f"before\n{table}\nafter\n"
    assert names_in_table(written) == ("walls",)
    assert with_table(written, table) == written


@pytest.mark.parametrize("text", ["", BEGIN, f"{END} {BEGIN}", f"{BEGIN} {END} {END}"])
def test_a_text_without_the_two_marks_is_not_written(text: str) -> None:
    with pytest.raises(ValueError, match="once each"):
        with_table(text, "table")


@pytest.mark.parametrize(("words", "told"), [(["nothing"], "is none of"), (["walls", "--replace"], "the whole table")])
def test_what_cannot_be_meant_is_refused_in_a_sentence(
    words: list[str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(words) == 2
    assert told in capsys.readouterr().err
