"""The example files as text, and short ways of asking what is wrong with a text."""

from pathlib import Path

from catalog import Catalog, Problem
from catalog.open_catalog import catalog_of_documents, contents_of
from catalog.read_files import document_of

FOLDER = Path(__file__).parent
EXAMPLE_FRAME = FOLDER / "example_frame.yaml"
EXAMPLE_JOB = FOLDER / "example_job.yaml"


def problems_in(text: str | bytes, *, file: str = "f.yaml") -> list[Problem]:
    """Everything wrong with the text of a catalog file."""
    content = text if isinstance(text, bytes) else text.encode()
    return list(contents_of([document_of(file, content)]).problems)


def catalog_of(text: str) -> Catalog:
    """The catalog in the text of one file."""
    return catalog_of_documents((document_of("f.yaml", text.encode()),), read_from=())


def example_with(before: str, after: str) -> str:
    """The example frame's text with one slip planted."""
    text = EXAMPLE_FRAME.read_text(encoding="utf-8")
    assert before in text, f"{before} does not stand in the example"
    return text.replace(before, after, 1)
