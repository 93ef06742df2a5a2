"""`lineplan table --from`: what tables are kept, what one of them comes to, and its pairs by words and outcome."""

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from catalog import write_pieces
from ui.reports.refusals import refusals_as_sentences
from ui.shared.command_refused import CommandRefused
from ui.shared.days import time_zone_of
from ui.shared.exit_status import ExitStatus
from ui.shared.extras import refuse_without
from ui.shared.store_place import opened_store
from ui.shared.target_files import Target, refuse_bad_targets
from ui.table.kept import KeptTable, Pick, Picked, first_pairs, pick_pairs, read_table, rows_of
from ui.table.rows_file import CSV, PARQUET, pieces_of

if TYPE_CHECKING:
    from catalog import Store

ALL = "store"
"""Stands for all tables, or where pairs are picked for the one that was made last."""

MOST_SHOWN = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptQuestion:
    """What is asked of the tables that are kept.

    which : the number of a table, or ALL
    pick : which of its pairs
    place : the store
    to : the file to write their rows to; None where it is not wanted
    replaces : whether a file that is there may be lost
    forgets : whether the table is put away for good
    """

    which: str
    pick: Pick
    place: str
    to: Path | None
    replaces: bool
    forgets: bool


def run_kept(question: KeptQuestion) -> int:
    """Tell what is kept, or write it; returns the exit status."""
    with refusals_as_sentences():
        number = _number(question)
        refuse_bad_targets(Target(path=question.to, endings=(CSV, PARQUET), replaces=question.replaces))
        if question.to is not None and question.to.suffix.lower() == PARQUET:
            refuse_without("table")
        with opened_store(question.place, creates=False) as store:
            if number is not None and question.forgets:
                store.tables.forget(number)
                print(f"Table {number} is put away.")
                return ExitStatus.DONE
            if number is None:
                number = _newest(store, is_asked_for=not question.pick.is_all or question.to is not None)
            if number is not None:
                _tell_one(store, read_table(store, number), question)
    return ExitStatus.DONE


def _number(question: KeptQuestion) -> int | None:
    """The number of a table; None where none is named."""
    if question.which.isascii() and question.which.isdigit():
        return int(question.which)
    if question.which != ALL:
        given, allowed = f"{question.which} was given", f"the number of a table, or {ALL} for all that are kept"
        raise CommandRefused(command="table", option="from", given=given, allowed=allowed)
    if question.forgets:
        given, allowed = "given without the number of a table", "--from NUMBER --forget"
        raise CommandRefused(command="table", option="forget", given=given, allowed=allowed)
    return None


def _newest(store: "Store", *, is_asked_for: bool) -> int | None:
    """The number of the newest table where it is asked for; else which tables there are is told."""
    from ui.reports.kept_tables_report import print_tables

    briefs = store.tables.list()
    if briefs and is_asked_for:
        return briefs[0].id
    print_tables(briefs, time_zone=time_zone_of(store))
    return None


def _tell_one(store: "Store", table: KeptTable, question: KeptQuestion) -> None:
    picked = pick_pairs(store, table, question.pick)
    if question.to is not None:
        write_pieces(question.to, pieces_of(question.to, rows_of(store, table, picked)), replaces=question.replaces)
        print(f"{_pairs_n(picked)} rows of table {table.brief.id} written to {question.to}.")
    elif question.pick.is_all:
        from ui.reports.table_report import print_tally

        print_tally(table.tally, where=f"table {table.brief.id} of the store", names=table)
        for case_id, why in table.refused:
            print(f"{case_id}: {why}", file=sys.stderr)
    else:
        from ui.reports.kept_tables_report import print_pairs

        first, found_n = first_pairs(picked, MOST_SHOWN), _pairs_n(picked)
        print_pairs(table, rows_of(store, table, first), found_n=found_n, shown_n=_pairs_n(first))


def _pairs_n(picked: Sequence[Picked]) -> int:
    return sum(len(each.brakes) for each in picked)
