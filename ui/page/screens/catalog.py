"""The catalog: a list with a search, one entry (`?kind=&id=`), its form, import and export."""

import streamlit as st

from catalog import CatalogError
from planner import in_markdown as plain
from ui.page import entry_draft, kept, session
from ui.page.drafts import take_up
from ui.page.forms.import_form import IMPORT, show_adopt_form, show_export, show_import_form
from ui.page.sent_files import was_sent
from ui.page.views.entry_editor import show_editor
from ui.page.views.entry_list import CATALOG_PAGE, show_entry_list
from ui.page.views.entry_page import show_entry, show_entry_of_files
from ui.page.views.problem_view import catalog_or_stop, show_refusal
from ui.shared.catalog_choice import stand_in_remarks

take_up(entry_draft.entry_form())
catalog, store = catalog_or_stop(), kept.store_or_none()
kind, id = (st.query_params.get(name, "") for name in ("kind", "id"))
if entry_draft.edited() is not None and store is not None:
    show_editor(store)
elif kind:
    st.page_link(CATALOG_PAGE, label="The whole catalog", icon=":material/arrow_back:")
    try:
        if store is not None and session.is_store_used():
            show_entry(store, store.documents.current(kind, id), catalog)
        else:
            show_entry_of_files(catalog, kind, id)
    except CatalogError as refusal:
        show_refusal(refusal)
else:
    st.title("Catalog", anchor=False)
    st.caption(f"In use: {plain(session.catalog_name())}")
    for remark in stand_in_remarks(catalog.stands_in):
        st.caption(plain(remark))
    shown = show_entry_list(catalog)
    if store is None:
        st.stop()
    if not session.is_store_used():
        show_adopt_form(store)
    elif shown not in ("", "shop"):
        st.button(
            "New entry of this kind", icon=":material/add:", on_click=entry_draft.open_new, args=(shown, {"id": ""})
        )
    with st.expander("Files in and out", expanded=was_sent(IMPORT)):
        show_import_form(store)
        show_export(store)
