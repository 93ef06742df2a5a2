"""Show the store: where it lies, what is in it, whether it is sound, copies of it, and tables that are too old."""

import os
from collections.abc import Callable
from pathlib import Path

import streamlit as st

from catalog import CatalogError, Store, StoreOutdated, copied_store, file_of_store
from planner import in_markdown as plain
from ui.page import kept, session
from ui.page.sent_files import tell_sent_again, was_sent
from ui.page.uploads import Upload, files_on_disk
from ui.page.views.markup import safe, show_markup
from ui.page.views.problem_view import show_refusal
from ui.shared.days import time_zone_of, today_in
from ui.shared.store_care import check_words, left_open, restored, upgraded
from ui.shared.store_place import page_store_place

SENT, COPY, PLACE = "store_copy_sent", "store_copy", "copy"
DONE = "store_done"
"""Key of the field for a copy; under which names the copy is held that was sent, the address says that one was, and
what was done with the store is held until it was told."""


def show_upgrade() -> None:
    """A store with older tables: what bringing them up to date does, and the button that does it."""
    outdated = _outdated()
    if outdated is None:
        return
    st.title("Shop", anchor=False)
    told = (
        f"The store {outdated.place} was made by an older lineplan: its tables have version {outdated.found}, "
        f"this one needs {outdated.wanted}."
    )
    st.warning(plain(told), icon=":material/update:")
    st.markdown(
        "Bringing it up to date changes its tables, all steps or none; what is kept in it stays. A store in a file is "
        "copied first, under a name with day and time beside it. Older programs cannot open it afterwards: bring "
        "them up to date too, wherever it is used."
    )
    if st.button("Bring the store up to date", type="primary", icon=":material/update:"):
        _do(lambda: upgraded(page_store_place(), outdated), "Bringing it up to date")
    st.stop()


def _outdated() -> StoreOutdated | None:
    """What is said of a store with older tables; what else is wrong with it is told where it is opened."""
    try:
        kept.store()
    except StoreOutdated as outdated:
        return outdated
    except CatalogError:
        pass
    return None


def show_store(store: Store) -> None:
    """Where it lies, what is in it, a look through it, and copies."""
    _show_facts(store)
    if st.button("Look through everything", icon=":material/fact_check:"):
        _show_check(store)
    st.markdown("**Copies**")
    if file_of_store(page_store_place()) is None:
        st.info(
            "This store is a database server's. Whoever runs that backs it up with its own tools, such as pg_dump and "
            "pg_restore. The catalog can be taken away as files under Catalog, Files in and out.",
            icon=":material/info:",
        )
        return
    _show_backup(store)
    _show_restore(store)


def show_done() -> None:
    """What was just done with the whole store, once."""
    if told := session.held(DONE):
        session.let_go(DONE)
        st.success(plain(str(told)), icon=":material/check_circle:")


def _show_facts(store: Store) -> None:
    _, jobs = store.find_briefs(words="", state=None, most=1)
    facts = [("Where", kept.place_words()), *_size(), ("Jobs", str(jobs)), ("Quotes", str(store.quotes.count()))]
    rows = "".join(f"<dt>{safe(name)}</dt><dd>{safe(words)}</dd>" for name, words in facts)
    show_markup(f'<dl class="lp-facts">{rows}</dl>')


def _size() -> list[tuple[str, str]]:
    """Of the file with its log; nothing for a server's."""
    file = file_of_store(page_store_place())
    if file is None:
        return []
    parts = (Path(f"{file}{ending}") for ending in ("", "-wal"))
    size = sum(os.path.getsize(part) for part in parts if part.exists())
    return [("Size", f"{size / 1e6:.1f} MB")]


def _show_check(store: Store) -> None:
    with st.spinner("Looking through the store"):
        found = store.check()
    words = check_words(found)
    if not found.damages:
        st.success(plain(words), icon=":material/check_circle:")
        return
    st.error(plain(words), icon=":material/error:")
    st.markdown("\n".join(f"- {plain(str(damage))}" for damage in found.damages))


def _show_backup(store: Store) -> None:
    """The copy is made when it is asked for."""
    st.caption(
        "A copy holds everything that is kept, and others may go on working while it is made. A copy of a store that "
        "is damaged is damaged too: look through everything now and then."
    )
    day = today_in(time_zone_of(store)).isoformat()
    st.download_button(
        "Back up the store",
        _packed,
        f"lineplan-{day}.sqlite",
        "application/vnd.sqlite3",
        on_click="ignore",
        icon=":material/download:",
    )


def _packed() -> bytes:
    with copied_store(page_store_place()) as copy:
        return b"".join(copy.pieces())


def _show_restore(store: Store) -> None:
    held: Upload | None = session.held(COPY)
    with st.expander("Put a copy back", expanded=held is not None or was_sent(PLACE)):
        st.markdown(
            "The copy is looked through first; one that is damaged or newer than this program is refused and "
            "nothing is changed. The store as it is now is laid beside itself, so that this can be undone."
        )
        st.caption(
            "A copy that is larger than the page takes is put back in the terminal: lineplan store restore COPY."
        )
        sent = st.file_uploader("A copy of the store (.sqlite)", type=["sqlite"], key=SENT, on_change=_hold_copy)
        upload = held if sent is None else Upload(name=sent.name, content=sent.getvalue())
        tell_sent_again(PLACE, is_sent=upload is not None)
        if upload is None:
            return
        if sent is None:
            st.caption(plain(f"Sent before: {upload.name}."))
            st.button("Put this file away", icon=":material/close:", on_click=session.let_go, args=(COPY,))
        may = _ask_left_open(store, upload)
        if st.button("Put it back in place of the store", icon=":material/settings_backup_restore:", disabled=not may):
            _do(lambda: _restored(upload), "Looking through the copy")


def _hold_copy() -> None:
    """A file that was sent stays while another tab is looked at, in which its field is not drawn."""
    sent = session.chosen(SENT)
    if sent is None:
        session.let_go(COPY)
    else:
        session.hold(COPY, Upload(name=sent.name, content=sent.getvalue()))


def _ask_left_open(store: Store, upload: Upload) -> bool:
    """Whether a copy may take the place of what is being filled in and is not in it."""
    with files_on_disk([upload]) as paths:
        told = left_open(store, next(iter(paths)))
    if not told:
        return True
    st.warning(
        "Being filled in, and not in the copy as it stands:\n" + "\n".join(f"- {plain(one)}" for one in told),
        icon=":material/edit_note:",
    )
    return st.checkbox("Put the copy back all the same: these go aside with the store", key="store_copy_all_the_same")


def _restored(upload: Upload) -> str:
    with files_on_disk([upload]) as paths:
        told, _ = restored(page_store_place(), next(iter(paths)))
    session.let_go(COPY)
    return told


def _do(work: Callable[[], str], doing: str) -> None:
    """Do something with the whole store, and begin anew with what it holds then."""
    try:
        with st.spinner(doing):
            told = work()
    except CatalogError as refusal:
        show_refusal(refusal)
        return
    st.cache_resource.clear()
    session.hold(DONE, told)
    st.rerun()
