"""Files that were sent and are looked at before they are used: held by one window, told after a reload.

They are not kept: a copy of a store is as large as the store and holds all that it holds; whoever sent it has it.
"""

import streamlit as st

from ui.page import session

_SENT = "sent"


def was_sent(place: str) -> bool:
    """Whether a file was sent to a place before the page was loaded anew, and must be sent again."""
    return st.query_params.get(_SENT) == place and not session.held(f"{_SENT}_{place}")


def tell_sent_again(place: str, *, is_sent: bool) -> None:
    """Say it where a file must be sent again.

    place : what is sent there, in a word for the address
    is_sent : whether there is one now
    """
    if is_sent:
        session.hold(f"{_SENT}_{place}", True)
        st.query_params[_SENT] = place
    elif was_sent(place):
        told = (
            "What was sent here before the page was loaded anew is gone with it, and nothing was done: send it again."
        )
        st.warning(told, icon=":material/upload_file:")
    elif st.query_params.get(_SENT) == place:
        session.let_go(f"{_SENT}_{place}")
        st.query_params.pop(_SENT, None)
