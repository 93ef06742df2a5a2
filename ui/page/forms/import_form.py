"""Read catalog files into the store, after seeing what that changes; and take the whole catalog away as files."""

from io import BytesIO
from zipfile import ZIP_DEFLATED, ZipFile

import streamlit as st

from catalog import STARTER_FOLDER, CatalogError, Imported, Store, exported_texts, prepare_import
from planner import in_markdown as plain
from ui.page import session
from ui.page.catalog_source import choice_in_use
from ui.page.downloads import offer
from ui.page.forms.name_field import ask_who, who
from ui.page.sent_files import tell_sent_again
from ui.page.uploads import Upload, files_on_disk
from ui.page.views.problem_view import show_refusal
from ui.shared.import_words import import_lines

IMPORT = "import"
"""What stands in the address while files are sent to be read in."""

PRUNE_WORDS = "The box above takes them out of use."


def show_adopt_form(store: Store) -> None:
    """The catalog in use is not the store's: the button that reads it in, with what that changes."""
    st.info(
        "What is shown here lies in files. To change it on the page, read it into the store.", icon=":material/info:"
    )
    if st.button("Read it into the store"):
        try:
            with st.spinner("Reading"), choice_in_use() as choice:
                paths = choice.paths or (STARTER_FOLDER,)
                ready = prepare_import(store, paths, over_starter=bool(choice.paths) and not choice.is_bare)
                store.documents.save_all(ready.changes, by=who(), note="read from files")
        except CatalogError as refusal:
            show_refusal(refusal)
            return
        session.use_store_catalog()
        st.rerun()


def show_import_form(store: Store) -> None:
    """Files to read in, what that would change, and the button that does it."""
    files = st.file_uploader(
        "Catalog files (YAML)", type=["yaml", "yml"], accept_multiple_files=True, key="files_to_read"
    )
    tell_sent_again(IMPORT, is_sent=bool(files))
    if not files:
        return
    prunes = st.checkbox("Take out of use what has left its file since that was last read", key="import_prunes")
    uploads = [Upload(name=file.name, content=file.getvalue()) for file in files]
    try:
        with files_on_disk(uploads) as paths, st.spinner("Reading"):
            ready = prepare_import(store, list(paths), prunes=prunes)
        _show_preview(ready.told)
        by = ask_who(key="import_by")
        if ready.changes and st.button("Read in", type="primary", disabled=not by):
            store.documents.save_all(ready.changes, by=by, note="read from files")
            session.use_store_catalog()
            st.rerun()
    except CatalogError as refusal:
        show_refusal(refusal)


def show_export(store: Store) -> None:
    """The whole catalog as files, in one."""
    offer("Catalog files (YAML in a ZIP)", "catalog.zip", "application/zip", lambda: packed_catalog(store))


def packed_catalog(store: Store) -> bytes:
    """Every catalog file of the store, brought up to date, packed in one."""
    packed = BytesIO()
    with ZipFile(packed, "w", ZIP_DEFLATED) as pack:
        for name, text in exported_texts(store).items():
            pack.writestr(name, text)
    return packed.getvalue()


def _show_preview(told: Imported) -> None:
    st.markdown(
        "**What this would change**\n"
        + "\n".join(f"- {plain(line.strip())}" for line in import_lines(told, prune_words=PRUNE_WORDS))
    )
