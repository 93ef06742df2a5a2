"""Look through the catalog in use: frames with their ports, brakes, lines, fittings, methods, parts, shop limits."""

import streamlit as st

from planner import in_markdown as plain
from ui.page import session
from ui.page.views.catalog_view import SECTIONS
from ui.page.views.problem_view import catalog_or_stop
from ui.shared.catalog_choice import stand_in_remarks

st.title("Catalog")
catalog = catalog_or_stop()
st.caption(f"In use: {plain(session.catalog_name())}")
for remark in stand_in_remarks(catalog.stands_in):
    st.caption(plain(remark))
session.start_choice("choice_section", "Frames")
section = st.segmented_control("Show", list(SECTIONS), key="choice_section", label_visibility="collapsed")
wanted = st.text_input("Only what contains", key="choice_wanted", placeholder="part of a name or id")
if section:
    SECTIONS[section](catalog, wanted.strip().lower())
