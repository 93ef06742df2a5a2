"""The address of the page, which tells what is shown: to be kept, sent to somebody, read again after a reload."""

import streamlit as st

from ui.page import session

_PLACE = "place_in_address"


def tell_address(place: str) -> None:
    """Tell the browser what is shown, where a link led on within one place: by itself it keeps the address of before.

    A link to another place is written by the browser itself, and told too early it would be one step back too many.

    place : that is shown now, as its address calls it
    """
    if session.held(_PLACE) == place:
        st.query_params.from_dict(st.query_params.to_dict())
    session.hold(_PLACE, place)
