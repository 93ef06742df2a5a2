"""The shop: its settings, what it has on its shelf and must buy, and its store with copies of it."""

import streamlit as st

from ui.page import entry_draft, kept, session
from ui.page.drafts import keep, take_up
from ui.page.sent_files import was_sent
from ui.page.views.entry_editor import show_editor
from ui.page.views.problem_view import catalog_or_stop
from ui.page.views.shop_view import SHOP_PAGE, show_settings
from ui.page.views.shopping_view import SHOPPING_FORM, show_shopping
from ui.page.views.store_view import PLACE, show_done, show_store, show_upgrade
from ui.page.views.tabs import show_tabs

SHOPPING, STORE = "Shopping list", "The store"
FIRST = "shop_first_tab"  # under which name it is held at which tab the shop was opened in this window

show_upgrade()
store = kept.store_or_stop()
take_up(entry_draft.entry_form())
edited = entry_draft.edited()
if edited is not None and edited["kind"] == "shop":
    show_editor(store, leads_to=SHOP_PAGE)
    st.stop()
catalog = catalog_or_stop()
st.title("Shop", anchor=False)
show_done()
if session.held(FIRST) is None:
    session.hold(FIRST, STORE if was_sent(PLACE) else "")
opened = show_tabs(
    {
        SHOPPING: lambda: show_shopping(store, catalog),
        "Settings": lambda: show_settings(store, catalog, is_kept=session.is_store_used()),
        STORE: lambda: show_store(store),
    },
    key="shop_tabs",
    first=str(session.held(FIRST)),
)
if opened != SHOPPING:
    keep(SHOPPING_FORM)  # the click that left it may have come with what was typed last
