"""Show what a visit needs and is charged: parts, items with their prices, tax and total."""

import streamlit as st

from planner import VisitPlan, price_words, quote_line_words
from planner import in_markdown as plain


def show_visit_price(plan: VisitPlan) -> None:
    """A row for each part and for what is charged; labour once for all lines."""
    totals = plan.totals
    if totals is None:
        st.caption("No price: there is no plan to work from.")
        return
    rows = ["| Item | Quantity | Each | Together |", "|:--|--:|--:|--:|"]
    rows += [f"| {' | '.join(map(plain, quote_line_words(line)))} |" for line in totals.charged]
    rows.append(f"| Tax | | | {totals.tax} |")
    rows.append(f"| **To pay** | | | **{totals.total}** |")
    st.markdown("\n".join([*rows, "", f":small[All amounts in {plain(totals.currency)}.]"]))
    if totals.unpriced:
        st.warning(plain(price_words(totals)), icon=":material/warning:")
