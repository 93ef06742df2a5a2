"""The user's data: what frames, lines, brakes and methods there are, checked before the planner sees it."""

from catalog.checking import check_files
from catalog.errors import (
    CatalogError,
    CatalogFileUnreadable,
    CatalogProblems,
    EntryNotAccepted,
    PartNotInCatalog,
    Problem,
)
from catalog.open_catalog import STARTER_FOLDER, Catalog, catalog_from_fields, read_catalog
from catalog.open_job import job_from_fields, read_job
from catalog.open_stock import Stock, holds_stock, read_stock
from catalog.stock_left import stock_text_after

__all__ = [
    "STARTER_FOLDER",
    "Catalog",
    "CatalogError",
    "CatalogFileUnreadable",
    "CatalogProblems",
    "EntryNotAccepted",
    "PartNotInCatalog",
    "Problem",
    "Stock",
    "catalog_from_fields",
    "check_files",
    "holds_stock",
    "job_from_fields",
    "read_catalog",
    "read_job",
    "read_stock",
    "stock_text_after",
]
