"""Libraries that not everybody needs, and what to install where one is missing."""

import importlib.util

from catalog import CatalogError

LIBRARIES = {
    "paper": ("reportlab", "svglib"),
    "store": ("sqlmodel", "alembic"),
    "table": ("pyarrow",),
    "cluster": ("distributed",),
    "trace": ("svgelements", "ezdxf"),
}
PURPOSES = {
    "paper": "printing to PDF",
    "store": "keeping jobs, plans and quotes",
    "table": "a table as a Parquet file",
    "cluster": "a table worked out on a cluster",
    "trace": "tracing a hole from an SVG or DXF file",
}


class ExtraMissing(CatalogError):  # noqa: N818  (named for what happened)
    """An extra of the program is not installed."""

    def __init__(self, *, extra: str, library: str) -> None:
        self.extra, self.library = extra, library
        super().__init__(
            f"{PURPOSES[extra]} needs {library}, which is not installed; install with the extra '{extra}': "
            f"pip install -e '.[{extra}]'"
        )


def refuse_without(extra: str) -> None:
    """Tell, before anything is done, which library of an extra is missing."""
    for library in LIBRARIES[extra]:
        if not _is_there(library):
            raise ExtraMissing(extra=extra, library=library)


def _is_there(library: str) -> bool:
    return importlib.util.find_spec(library) is not None
