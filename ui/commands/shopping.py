"""`lineplan shopping`: small parts, adapters and lines of all open jobs against what is on the shelf."""

from pathlib import Path

from catalog import read_stock, write_file
from planner import LINE_HEADS, PART_HEADS, line_rows, part_rows, shopping_csv, shopping_pdf, shopping_remarks
from ui.reports.refusals import refusals_as_sentences
from ui.reports.report import print_columns
from ui.shared.days import today_in
from ui.shared.exit_status import ExitStatus
from ui.shared.extras import refuse_without
from ui.shared.shopping import job_names, shopping_list_of
from ui.shared.store_place import opened_store
from ui.shared.target_files import Target, refuse_bad_targets


def run_shopping(
    *, place: str, only_agreed: bool, stock_file: Path | None, pdf: Path | None, csv: Path | None, replaces: bool
) -> int:
    """Tell the list, and write the files asked for; returns the exit status.

    stock_file : what lines are cut from; None where that is not to be looked at
    """
    with refusals_as_sentences():
        refuse_without("store")
        if pdf is not None:
            refuse_without("paper")
        refuse_bad_targets(
            Target(path=pdf, endings=(".pdf",), replaces=replaces),
            Target(path=csv, endings=(".csv",), replaces=replaces),
        )
        with opened_store(place, creates=False) as store:
            from catalog import catalog_of_store

            catalog = catalog_of_store(store).catalog
            workshop = catalog.workshop
            stock = None if stock_file is None else read_stock(stock_file, catalog)
            found = shopping_list_of(store, workshop=workshop, only_agreed=only_agreed, stock=stock)
            names = job_names(store)
        if pdf is not None:
            day, name = today_in(workshop.limits.time_zone).isoformat(), workshop.limits.shop_name
            write_file(
                pdf, shopping_pdf(found=found, job_names=names, shop_name=name, date_text=day), replaces=replaces
            )
        if csv is not None:
            write_file(csv, shopping_csv(found), replaces=replaces)
    if not found.parts and not found.lines:
        print("No open job takes anything.")
    if found.parts:
        print_columns(PART_HEADS, part_rows(found))
    if found.lines:
        print_columns(LINE_HEADS, line_rows(found))
    for remark in shopping_remarks(found):
        print(remark)
    return ExitStatus.DONE
