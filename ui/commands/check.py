"""`lineplan check`: every problem in some files, at once."""

import sys
from collections.abc import Iterator, Sequence
from functools import cache
from pathlib import Path

from catalog import Catalog, EntryNotAccepted, Problem, check_files, questions_of_files, told_in_lines
from ui.reports.refusals import refusals_as_sentences
from ui.shared.catalog_choice import CatalogChoice, chosen_catalog
from ui.shared.exit_status import ExitStatus
from ui.shared.planned_job import is_job_file
from ui.shared.planned_visit import find_job_or_visit


def run_check(asked: Sequence[str], *, is_bare: bool, place: str) -> int:
    """Check catalog, job and stock files, and saved jobs by their names; returns the exit status.

    Catalog files are laid over the starter; where none are named, jobs are held against the catalog that a plan takes.
    """
    files = [Path(one) for one in asked if is_job_file(one) or Path(one).exists()]
    names = [one for one in asked if not (is_job_file(one) or Path(one).exists())]

    @cache
    def catalog() -> Catalog:
        return chosen_catalog(CatalogChoice(is_bare=is_bare, place=place), as_kept=False)

    with refusals_as_sentences():
        problems = check_files(files, over_starter=not is_bare, against=catalog, on_all_cores=True) if files else []
        problems.extend(_problems_of_saved(names, catalog(), place) if names else ())
    if problems:
        print("\n".join(told_in_lines(problems)), file=sys.stderr)
        count = len(problems)
        print(f"{count} problem{'' if count == 1 else 's'} found", file=sys.stderr)
        return ExitStatus.BAD_INPUT
    questions = questions_of_files(files, over_starter=not is_bare) if files else []
    for question in told_in_lines(questions):
        print(question)
    is_that_meant = f"; {len(questions)} to look at once more, above" if questions else ""
    print(f"{', '.join(asked)}: nothing wrong found{is_that_meant}")
    return ExitStatus.DONE


def _problems_of_saved(names: Sequence[str], catalog: Catalog, place: str) -> Iterator[Problem]:
    for name in names:
        try:
            find_job_or_visit(name, catalog=catalog, place=place)
        except EntryNotAccepted as refusal:
            yield from refusal.problems
