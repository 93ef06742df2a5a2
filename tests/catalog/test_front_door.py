"""Nothing heavy stands behind reading a catalog, and every error of the catalog says what it is about."""

import subprocess
import sys

from catalog import CatalogError, CatalogFileUnreadable, CatalogProblems, EntryNotAccepted, PartNotInCatalog, Problem


def test_reading_a_catalog_loads_no_database_screen_or_search() -> None:
    heavy = "{'sqlmodel', 'sqlalchemy', 'streamlit', 'typer', 'numpy', 'scipy', 'shapely', 'networkx'}"
    code = f"import sys, catalog; catalog.read_catalog(); print(sorted({heavy} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"


def test_every_error_of_the_catalog_has_one_base() -> None:
    assert issubclass(EntryNotAccepted, CatalogError)
    assert issubclass(CatalogProblems, EntryNotAccepted)
    assert issubclass(PartNotInCatalog, CatalogError)
    assert issubclass(CatalogFileUnreadable, CatalogError)


def test_messages_of_the_errors() -> None:
    problem = Problem(file="a.yaml", line=3, thing="line x", field="outer", given="0.2 mm was given", allowed="more")
    assert str(EntryNotAccepted([problem, problem])) == "\n".join(
        ["a.yaml:3: line x > outer: 0.2 mm was given, more"] * 2
    )
    assert str(PartNotInCatalog(kind="brake", asked="oring", near=["orrin"])) == (
        "no brake oring in the catalog; did you mean orrin?"
    )
    unreadable = CatalogFileUnreadable(path="a.yaml", line=0, found="there is no such file", expected="a file")
    assert str(unreadable) == "a.yaml: file: there is no such file, a file"
