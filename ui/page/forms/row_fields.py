"""Rows of fields of which there is always one more to fill in: a line, its length, how many."""

from dataclasses import dataclass

import streamlit as st

from catalog import Catalog
from planner import told_apart
from ui.page.forms.measure_field import ask_measure

MOST_ROWS = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class LineRow:
    """A row that is filled in.

    line_id, length_mm : what, how long
    quantity : how many; None where the field is empty
    """

    line_id: str
    length_mm: float
    quantity: int | None


def ask_line_rows(catalog: Catalog, *, prefix: str, counts: str) -> tuple[list[LineRow], bool]:
    """The rows that are filled in, and whether one is only begun or not right.

    prefix : what the keys of these fields begin with
    counts : label of the field that counts
    """
    names = told_apart({line.id: line.name for line in catalog.lines.values()})
    rows: list[LineRow] = []
    is_open = False
    for n in range(MOST_ROWS):
        line_column, length_column, count_column = st.columns([3, 2, 2])
        line_id = line_column.selectbox(
            f"Line {n + 1}",
            list(names),
            index=None,
            key=f"{prefix}line{n}",
            placeholder="none",
            format_func=lambda id: names.get(id, id),
        )
        if line_id is None:
            break
        length = ask_measure(length_column, "Length, mm", key=f"{prefix}length{n}_mm")
        count = ask_measure(count_column, counts, key=f"{prefix}count{n}", unit="")
        if count.value is not None and (count.value < 1 or count.value != int(count.value)):
            count_column.error("A whole number, 1 or more.", icon=":material/error:")
            is_open = True
        elif length.value is not None and length.value <= 0:
            length_column.error("A length above zero.", icon=":material/error:")
            is_open = True
        elif length.value is None or count.problem:
            is_open = True
        else:
            quantity = None if count.value is None else int(count.value)
            rows.append(LineRow(line_id=line_id, length_mm=length.value, quantity=quantity))
    return rows, is_open
