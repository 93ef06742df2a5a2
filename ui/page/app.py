"""The page: navigation only."""

from pathlib import Path

import streamlit as st

from ui.page import session
from ui.page.address import tell_address
from ui.page.views.markup import show_style

st.set_page_config(page_title="lineplan", page_icon=str(Path(__file__).parent / "page_icon.svg"), layout="wide")
show_style()
session.begin_run()
place = st.navigation(
    [
        st.Page("screens/plan_a_job.py", title="Plan a job", icon=":material/route:", default=True),
        st.Page("screens/several_lines.py", title="Several lines", icon=":material/alt_route:"),
        st.Page("screens/frames_and_brakes.py", title="Frames and brakes", icon=":material/grid_on:"),
        st.Page("screens/new_frame.py", title="New frame", icon=":material/edit_square:"),
        st.Page("screens/new_job.py", title="New job", icon=":material/assignment_add:"),
        st.Page("screens/will_it_pass.py", title="Will it pass?", icon=":material/straighten:"),
        st.Page("screens/check_files.py", title="Check files", icon=":material/fact_check:"),
        st.Page("screens/jobs.py", title="Jobs and quotes", icon=":material/work_history:"),
        st.Page("screens/bench.py", title="At the bench", icon=":material/construction:", visibility="hidden"),
        st.Page("screens/cuts.py", title="Cut lists", icon=":material/content_cut:"),
        st.Page("screens/catalog.py", title="Catalog", icon=":material/inventory_2:"),
        st.Page("screens/shop.py", title="Shop", icon=":material/storefront:"),
    ],
    position="top",
)
tell_address(place.url_path)
place.run()
