"""The user's data: what frames, lines, brakes and methods there are, checked before the planner sees it.

The names of the store are loaded when they are first asked for, so that reading files does not wait for a database's
libraries.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

from catalog.checking import check_files
from catalog.errors import (
    MOST_TOLD,
    CatalogError,
    CatalogFileUnreadable,
    CatalogProblems,
    EntryNotAccepted,
    FileNotWritten,
    PartNotInCatalog,
    Problem,
    file_problem,
    told_in_lines,
)
from catalog.open_catalog import Catalog, catalog_from_fields, read_catalog
from catalog.open_job import job_from_fields, read_job
from catalog.open_stock import Stock, holds_stock, read_stock
from catalog.place_text import may_hold_a_password
from catalog.shop import questions_of_shop
from catalog.starter_files import STARTER_FOLDER
from catalog.stock_left import stock_text_after
from catalog.write_files import file_obstacle, folder_obstacle, make_folder, write_all, write_file

if TYPE_CHECKING:
    from catalog.kept_jobs import job_fields_in, job_file_text, pins_used
    from catalog.store import Store, open_store
    from catalog.store_catalog import PinnedCatalog, catalog_at, catalog_of_store
    from catalog.store_differences import differences, sentences
    from catalog.store_errors import (
        EditConflict,
        NotInStore,
        StoreDamaged,
        StoreError,
        StoreOutdated,
        StoreRefused,
        StoreUnreachable,
        WrittenMeanwhile,
    )
    from catalog.store_export import exported_texts
    from catalog.store_import import Imported, ReadyImport, import_files, prepare_import
    from catalog.store_records import as_record, draft_of_quote, from_record
    from catalog.store_things import (
        Happening,
        JobState,
        Pin,
        QuoteDraft,
        QuoteState,
        Revision,
        StoredJob,
        StoredPlan,
        StoredQuote,
    )
    from catalog.store_upgrade import upgrade_store

_STORE_HOMES = {
    "EditConflict": "catalog.store_errors",
    "Happening": "catalog.store_things",
    "Imported": "catalog.store_import",
    "JobState": "catalog.store_things",
    "NotInStore": "catalog.store_errors",
    "Pin": "catalog.store_things",
    "PinnedCatalog": "catalog.store_catalog",
    "QuoteDraft": "catalog.store_things",
    "QuoteState": "catalog.store_things",
    "Revision": "catalog.store_things",
    "Store": "catalog.store",
    "StoreDamaged": "catalog.store_errors",
    "StoreError": "catalog.store_errors",
    "StoreOutdated": "catalog.store_errors",
    "StoreRefused": "catalog.store_errors",
    "StoreUnreachable": "catalog.store_errors",
    "StoredJob": "catalog.store_things",
    "StoredPlan": "catalog.store_things",
    "StoredQuote": "catalog.store_things",
    "WrittenMeanwhile": "catalog.store_errors",
    "as_record": "catalog.store_records",
    "catalog_at": "catalog.store_catalog",
    "catalog_of_store": "catalog.store_catalog",
    "differences": "catalog.store_differences",
    "draft_of_quote": "catalog.store_records",
    "exported_texts": "catalog.store_export",
    "from_record": "catalog.store_records",
    "import_files": "catalog.store_import",
    "job_fields_in": "catalog.kept_jobs",
    "job_file_text": "catalog.kept_jobs",
    "open_store": "catalog.store",
    "ReadyImport": "catalog.store_import",
    "pins_used": "catalog.kept_jobs",
    "prepare_import": "catalog.store_import",
    "sentences": "catalog.store_differences",
    "upgrade_store": "catalog.store_upgrade",
}

__all__ = [
    "MOST_TOLD",
    "STARTER_FOLDER",
    "Catalog",
    "CatalogError",
    "CatalogFileUnreadable",
    "CatalogProblems",
    "EditConflict",
    "EntryNotAccepted",
    "FileNotWritten",
    "Happening",
    "Imported",
    "JobState",
    "NotInStore",
    "PartNotInCatalog",
    "Pin",
    "PinnedCatalog",
    "Problem",
    "QuoteDraft",
    "QuoteState",
    "ReadyImport",
    "Revision",
    "Stock",
    "Store",
    "StoreDamaged",
    "StoreError",
    "StoreOutdated",
    "StoreRefused",
    "StoreUnreachable",
    "StoredJob",
    "StoredPlan",
    "StoredQuote",
    "WrittenMeanwhile",
    "as_record",
    "catalog_at",
    "catalog_from_fields",
    "catalog_of_store",
    "check_files",
    "differences",
    "draft_of_quote",
    "exported_texts",
    "file_obstacle",
    "file_problem",
    "folder_obstacle",
    "from_record",
    "holds_stock",
    "import_files",
    "job_fields_in",
    "job_file_text",
    "job_from_fields",
    "make_folder",
    "may_hold_a_password",
    "open_store",
    "pins_used",
    "prepare_import",
    "questions_of_shop",
    "read_catalog",
    "read_job",
    "read_stock",
    "sentences",
    "stock_text_after",
    "told_in_lines",
    "upgrade_store",
    "write_all",
    "write_file",
]


def __getattr__(name: str) -> Any:
    """Load a name of the store from the module it lives in."""
    if name not in _STORE_HOMES:
        raise AttributeError(f"catalog has no {name}; its front door has {', '.join(__all__)}")
    return getattr(import_module(_STORE_HOMES[name]), name)
