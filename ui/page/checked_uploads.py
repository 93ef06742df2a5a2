"""Uploaded files held against all that is asked of a catalog: everything wrong with them, and what is likely a slip."""

from collections.abc import Sequence

from catalog import Problem, check_files, questions_of_files
from ui.page import session
from ui.page.uploads import Upload, as_sent, files_on_disk
from ui.shared.page_start import starts_bare


def problems_of_uploads(uploads: Sequence[Upload], *, is_beside_first: bool) -> list[Problem]:
    """Every problem in uploaded catalog and job files, alone or beside the catalog the page was started with.

    Jobs without a catalog file beside them are held against the catalog in use.
    """
    beside = session.files_beside(is_beside_first)
    has_catalog = beside or any(not upload.is_job for upload in uploads)
    against = None if has_catalog else session.catalog_in_use
    with files_on_disk(uploads) as paths:
        problems = check_files([*beside, *paths], over_starter=not starts_bare(), against=against)
        return [as_sent(problem, paths) for problem in problems]


def questions_of_uploads(uploads: Sequence[Upload]) -> list[Problem]:
    """What in uploaded frames is likely a slip, though nothing is wrong with them."""
    with files_on_disk(uploads) as paths:
        asked = questions_of_files(list(paths), over_starter=not starts_bare())
        return [as_sent(question, paths) for question in asked]
