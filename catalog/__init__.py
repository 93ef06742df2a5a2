"""The user's data: what frames, lines, brakes and methods there are, checked before the planner sees it.

The names below are the front door, one row each, by where they live. Each is loaded when it is first asked for, so that
reading files does not wait for a database's libraries.
"""

from typing import TYPE_CHECKING, Any

from planner.front_door import open_door

if TYPE_CHECKING:
    from catalog.asked_fields import asked_field as asked_field
    from catalog.checking import check_files as check_files
    from catalog.checking import problems_of_text as problems_of_text
    from catalog.commented_yaml import Noted as Noted
    from catalog.commented_yaml import commented_text as commented_text
    from catalog.commented_yaml import without_notes as without_notes
    from catalog.entry_fields import EntryField as EntryField
    from catalog.entry_fields import FieldSort as FieldSort
    from catalog.entry_fields import annotation_of as annotation_of
    from catalog.entry_fields import complaints_by_path as complaints_by_path
    from catalog.entry_fields import fields_in as fields_in
    from catalog.entry_fields import kind_word as kind_word
    from catalog.entry_fields import kinds_of_entries as kinds_of_entries
    from catalog.errors import MOST_TOLD as MOST_TOLD
    from catalog.errors import CatalogError as CatalogError
    from catalog.errors import CatalogFileUnreadable as CatalogFileUnreadable
    from catalog.errors import CatalogProblems as CatalogProblems
    from catalog.errors import EntryNotAccepted as EntryNotAccepted
    from catalog.errors import FileNotWritten as FileNotWritten
    from catalog.errors import PartNotInCatalog as PartNotInCatalog
    from catalog.errors import Problem as Problem
    from catalog.errors import file_problem as file_problem
    from catalog.errors import told_in_lines as told_in_lines
    from catalog.field_help import FieldHelp as FieldHelp
    from catalog.file_contents import ordinary_content as ordinary_content
    from catalog.file_lock import folder_to_oneself as folder_to_oneself
    from catalog.find_catalog import read_catalog as read_catalog
    from catalog.find_job import read_job as read_job
    from catalog.find_job import read_job_or_visit as read_job_or_visit
    from catalog.kept_jobs import job_fields_in as job_fields_in
    from catalog.kept_jobs import job_file_text as job_file_text
    from catalog.kept_jobs import pins_used as pins_used
    from catalog.layouts import Layout as Layout
    from catalog.layouts import bar_defaults as bar_defaults
    from catalog.layouts import layout_defaults as layout_defaults
    from catalog.open_cases import TableFiles as TableFiles
    from catalog.open_cases import read_table_files as read_table_files
    from catalog.open_catalog import catalog_of_text as catalog_of_text
    from catalog.open_job import has_several_lines as has_several_lines
    from catalog.open_job import job_complaints_by_path as job_complaints_by_path
    from catalog.open_job import job_from_fields as job_from_fields
    from catalog.open_job import visit_from_fields as visit_from_fields
    from catalog.open_stock import Stock as Stock
    from catalog.open_stock import holds_stock as holds_stock
    from catalog.open_stock import read_stock as read_stock
    from catalog.place_text import may_hold_a_password as may_hold_a_password
    from catalog.readings import Reading as Reading
    from catalog.readings import ReadingNotPlaced as ReadingNotPlaced
    from catalog.readings import frame_with as frame_with
    from catalog.readings import take_into_files as take_into_files
    from catalog.ready_catalog import Catalog as Catalog
    from catalog.shop import questions_of_shop as questions_of_shop
    from catalog.slip_questions import questions_of_files as questions_of_files
    from catalog.spreads import Spread as Spread
    from catalog.spreads import read_range as read_range
    from catalog.spreads import spread_of as spread_of
    from catalog.starter_place import STARTER_FOLDER as STARTER_FOLDER
    from catalog.stock_left import stock_file_text as stock_file_text
    from catalog.stock_left import stock_text_after as stock_text_after
    from catalog.stock_taken import jobs_taken_before as jobs_taken_before
    from catalog.stock_taken import taken_before as taken_before
    from catalog.stock_taken import taken_entry as taken_entry
    from catalog.store import Store as Store
    from catalog.store import open_store as open_store
    from catalog.store_backup import copied_store as copied_store
    from catalog.store_backup import draft_versions_in as draft_versions_in
    from catalog.store_backup import file_of_store as file_of_store
    from catalog.store_backup import keep_aside as keep_aside
    from catalog.store_backup import restore_store as restore_store
    from catalog.store_bench import StoredBenchNote as StoredBenchNote
    from catalog.store_catalog import catalog_at as catalog_at
    from catalog.store_catalog import catalog_of_store as catalog_of_store
    from catalog.store_catalog import catalog_with as catalog_with
    from catalog.store_check import StoreCheck as StoreCheck
    from catalog.store_differences import differences as differences
    from catalog.store_differences import sentences as sentences
    from catalog.store_drafts import DraftBrief as DraftBrief
    from catalog.store_drafts import StoredDraft as StoredDraft
    from catalog.store_errors import EditConflict as EditConflict
    from catalog.store_errors import NotInStore as NotInStore
    from catalog.store_errors import StoreDamaged as StoreDamaged
    from catalog.store_errors import StoreError as StoreError
    from catalog.store_errors import StoreOutdated as StoreOutdated
    from catalog.store_errors import StoreRefused as StoreRefused
    from catalog.store_errors import StoreUnreachable as StoreUnreachable
    from catalog.store_errors import WrittenMeanwhile as WrittenMeanwhile
    from catalog.store_export import exported_texts as exported_texts
    from catalog.store_import import Imported as Imported
    from catalog.store_import import ReadyImport as ReadyImport
    from catalog.store_import import prepare_import as prepare_import
    from catalog.store_jobs import next_job_states as next_job_states
    from catalog.store_overview import JobBrief as JobBrief
    from catalog.store_quote_steps import next_quote_states as next_quote_states
    from catalog.store_readings import take_all_into_store as take_all_into_store
    from catalog.store_readings import take_into_store as take_into_store
    from catalog.store_records import as_record as as_record
    from catalog.store_records import draft_of_quote as draft_of_quote
    from catalog.store_records import from_record as from_record
    from catalog.store_tables import OUTCOME_SIGNS as OUTCOME_SIGNS
    from catalog.store_tables import TableBrief as TableBrief
    from catalog.store_tables import TableLine as TableLine
    from catalog.store_things import Change as Change
    from catalog.store_things import Happening as Happening
    from catalog.store_things import JobState as JobState
    from catalog.store_things import Pin as Pin
    from catalog.store_things import QuoteDraft as QuoteDraft
    from catalog.store_things import QuoteState as QuoteState
    from catalog.store_things import Revision as Revision
    from catalog.store_things import StoredJob as StoredJob
    from catalog.store_things import StoredPlan as StoredPlan
    from catalog.store_things import StoredQuote as StoredQuote
    from catalog.store_upgrade import upgrade_store as upgrade_store
    from catalog.store_users import users_of as users_of
    from catalog.traced_edges import TraceRefused as TraceRefused
    from catalog.traced_outline import BIGGEST_DRAWING_BYTES as BIGGEST_DRAWING_BYTES
    from catalog.traced_outline import FILE_ENDINGS as FILE_ENDINGS
    from catalog.traced_outline import TEXT_ENDINGS as TEXT_ENDINGS
    from catalog.traced_outline import WITHIN_MM as WITHIN_MM
    from catalog.traced_outline import LengthWanted as LengthWanted
    from catalog.traced_outline import TracedOutline as TracedOutline
    from catalog.traced_outline import trace_file as trace_file
    from catalog.traced_outline import trace_points as trace_points
    from catalog.usual_holes import HoleKind as HoleKind
    from catalog.usual_holes import UsualTube as UsualTube
    from catalog.usual_holes import usual_frame as usual_frame
    from catalog.write_files import file_obstacle as file_obstacle
    from catalog.write_files import folder_obstacle as folder_obstacle
    from catalog.write_files import make_folder as make_folder
    from catalog.write_files import write_all as write_all
    from catalog.write_files import write_file as write_file
    from catalog.write_files import write_pieces as write_pieces
else:

    def __getattr__(name: str) -> Any:
        """A name of the front door, loaded from where it lives."""
        return open_door(__name__, name)
