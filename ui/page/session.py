"""What the page remembers between two clicks, and what it reads only once. Nothing else touches st.session_state."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, cast

import streamlit as st

from catalog import Catalog, read_job_or_visit
from planner.parts import Job, Visit
from ui.page import kept
from ui.page.uploads import Upload, files_on_disk
from ui.shared.catalog_choice import catalog_of_files
from ui.shared.page_start import catalog_to_start_with, job_to_start_with, starts_bare

DEMO_FOLDER = Path(__file__).parents[2] / "demo_frames"

DEMO_NAME = "invented frames"
MOST_NAMES = 3
_CHOICES = "choice_"
NEW_FRAME = "choice_new_"
"""How keys of answers about a frame begin."""

NEW_JOB = "choice_told_"
"""How keys of answers about a job begin, where it is told question by question."""

JOB_READINGS, VISIT_READINGS = _CHOICES, "choice_place_visit_"
BESIDE_JOB, BESIDE_VISIT = f"{_CHOICES}beside_", f"{VISIT_READINGS}beside_"
"""How keys begin of what was measured for the job on the form and for the visit; of what is typed beside the answer."""

_OTHERS = ("choice_fit_", NEW_FRAME, NEW_JOB, BESIDE_JOB, "choice_section", "choice_wanted", "choice_place_")
"""How keys of choices begin that do not belong to the job."""

_CATALOG, _CATALOG_NAME, _OPENED, _PICKED, _UPLOADS = (
    "own_catalog",
    "own_catalog_name",
    "job_as_opened",
    "picked_port",
    "jobs_opened_count",
)
_WELCOMED, _ASKED_FOR, _SOURCE = "welcomed", "port_asked_for", "catalog_source"
_READ, _JUST_OPENED = "catalog_read_now", "job_just_opened"
FOLDED, JOB_DRAFT, SAVED_AS, VISIT, VISIT_SAVED_AS = "folded", "draft_job", "saved_as", "visit", "visit_saved_as"
SOUND, SOUND_VISIT = "sound_fields", "sound_visit"
VISIT_MEMORY = "visit_memory"
"""Names under which the folded form of the job is held, its draft, which saved job it is, and a visit."""

CHANGE_KEY = "change_the_job"
"""Key of the place behind which the form is folded; true in the session while it is open."""


def catalog_in_use() -> Catalog:
    """The catalog the page works with: the one opened on the page, the one it was started with, or the store's.

    Raises CatalogError where the files it was started with are not accepted.
    """
    own = st.session_state.get(_CATALOG)
    if own is not None:
        return cast("Catalog", own)
    if is_store_used() and (of_store := kept.catalog_or_none()) is not None:
        return of_store
    if _READ not in st.session_state:
        st.session_state[_READ] = catalog_of_files(catalog_to_start_with(), is_bare=starts_bare())
    return cast("Catalog", st.session_state[_READ])


def begin_run() -> None:
    """What is to be done first at every click: files are looked at once in it, and choices out of sight are kept."""
    st.session_state.pop(_READ, None)
    keep_beginning(_CHOICES)


def is_store_used() -> bool:
    """Whether the store's catalog is worked with: where no files were named, or since it was chosen on the page."""
    if catalog_source()["kind"] != "start":
        return bool(catalog_source()["kind"] == "store")
    return not catalog_to_start_with() and not starts_bare() and kept.has_catalog()


def catalog_source() -> dict[str, Any]:
    """Where the catalog in use comes from, as plain values: `kind` is start, store, demo or files."""
    return dict(st.session_state.get(_SOURCE, {"kind": "start"}))


def catalog_name() -> str:
    """What to call the catalog in use."""
    own = st.session_state.get(_CATALOG_NAME)
    if own:
        return str(own)
    if is_store_used():
        return "the store's"
    names = [path.name for path in catalog_to_start_with()] or ["starter catalog"]
    return ", ".join(names) if len(names) <= MOST_NAMES else f"{names[0]} and {len(names) - 1} more files"


def use_catalog(catalog: Catalog, *, name: str, source: Mapping[str, Any]) -> None:
    """Work with this catalog from now on; a job opened from another one is forgotten."""
    forget_job()
    forget_visit()
    st.session_state[_CATALOG], st.session_state[_CATALOG_NAME] = catalog, name
    st.session_state[_SOURCE] = dict(source)


def use_store_catalog() -> None:
    """Work with the store's catalog from now on."""
    back_to_first_catalog()
    st.session_state[_SOURCE] = {"kind": "store"}


def back_to_first_catalog() -> None:
    """Work again with the catalog the page was started with."""
    forget_job()
    forget_visit()
    for key in (_CATALOG, _CATALOG_NAME, _SOURCE):
        st.session_state.pop(key, None)


def has_own_catalog() -> bool:
    """Whether a catalog was opened on the page."""
    return _SOURCE in st.session_state


def demo_frames() -> tuple[Path, ...]:
    """Invented frames to try the page with; empty where they are not installed."""
    return tuple(sorted(DEMO_FOLDER.glob("*.frame.yaml")))


def demo_jobs() -> tuple[Path, ...]:
    """Invented jobs of one line on these frames."""
    return tuple(sorted(DEMO_FOLDER.glob("*.job.yaml")))


def demo_visits() -> tuple[Path, ...]:
    """Invented jobs of several lines."""
    return tuple(sorted(DEMO_FOLDER.glob("*.visit.yaml")))


def use_demo_frames() -> None:
    """Work with the invented frames."""
    use_catalog(catalog_of_files(demo_frames(), is_bare=False), name=DEMO_NAME, source={"kind": "demo"})


def use_uploads(uploads: Sequence[Upload], *, is_beside_first: bool) -> None:
    """Work with the catalog in uploaded files, alone or beside the one the page was started with.

    Where none of them is a catalog, the one in use stays.
    """
    catalogs = [upload for upload in uploads if not upload.is_job]
    if not catalogs:
        return
    with files_on_disk(catalogs) as paths:
        catalog = catalog_of_files([*files_beside(is_beside_first), *paths], is_bare=starts_bare())
        sent = [{"name": upload.name, "text": upload.content.decode("utf-8")} for upload in catalogs]
        source = {"kind": "files", "files": sent, "beside": is_beside_first}
        use_catalog(catalog, name=", ".join(paths.values()), source=source)


def job_of_upload(upload: Upload) -> Job | Visit:
    """The job in an uploaded file, of one line or of several, held against the catalog in use."""
    with files_on_disk([upload]) as paths:
        return read_job_or_visit(next(iter(paths)), catalog_in_use())


def job_of_file(path: Path) -> Job | Visit:
    """The job in a file on this machine, of one line or of several, held against the catalog in use."""
    return read_job_or_visit(path, catalog_in_use())


def remember_opened(fields: Mapping[str, Any], choices: Mapping[str, Any]) -> None:
    """Take a job as the starting point: its fields, and the choices on the form that show them."""
    st.session_state[_OPENED] = dict(fields)
    hold(_JUST_OPENED, bool(fields))
    put_upload_away()
    st.session_state.update(choices)


def take_just_opened() -> bool:
    """Whether a job was opened since the last click; told once."""
    was_opened = bool(held(_JUST_OPENED))
    let_go(_JUST_OPENED)
    return was_opened


def start_choice(key: str, value: Any) -> None:
    """What a choice on the form shows until somebody chooses otherwise."""
    st.session_state.setdefault(key, value)


def start_choice_among(key: str, offered: Sequence[object], first: object) -> None:
    """What a choice shows until somebody chooses otherwise, and again once what was chosen is not offered any more."""
    if st.session_state.get(key) not in offered:
        st.session_state[key] = first


def keep_among(key: str, offered: Sequence[str]) -> None:
    """Let go what was chosen and is not offered any more."""
    st.session_state[key] = [one for one in st.session_state.get(key, ()) if one in offered]


def chosen(key: str) -> Any:
    """What a choice on the form shows; None where it was not shown yet."""
    return st.session_state.get(key)


def opening_key(name: str) -> str:
    """Key of a place where jobs are opened: a fresh one after each job, so that each is opened once."""
    return f"job_{name}_{st.session_state.get(_UPLOADS, 0)}"


def put_upload_away() -> None:
    """Empty the places where jobs are opened; the job that is open stays."""
    st.session_state[_UPLOADS] = st.session_state.get(_UPLOADS, 0) + 1


def is_demo() -> bool:
    """Whether the invented frames are in use, opened here or named when the page was started."""
    return catalog_name() == DEMO_NAME or set(demo_frames()) & set(catalog_to_start_with()) != set()


def has_choices() -> bool:
    """Whether anything has been chosen on the form that an empty form does not show."""
    return any(st.session_state.get(f"{_CHOICES}{name}") for name in ("frame", "old", "new", "staying", "rotor_mm"))


def is_changed(choices: Mapping[str, Any]) -> bool:
    """Whether the form shows anything else than these choices."""
    return any(st.session_state.get(key) != value for key, value in choices.items())


def job_choices() -> dict[str, Any]:
    """Every choice on the job's form by its key, and of fields typed what was typed."""
    return {key: st.session_state[key] for key in _choice_keys()}


def put_choices(choices: Mapping[str, Any]) -> None:
    """Show these choices on the form."""
    st.session_state.update(choices)


def choices_beginning(prefix: str) -> dict[str, Any]:
    """Every choice whose key begins so."""
    return {str(key): value for key, value in st.session_state.items() if str(key).startswith(prefix)}


def held(name: str) -> Any:
    """What the page holds on to under a name; None where it holds nothing."""
    return st.session_state.get(f"held_{name}")


def hold(name: str, value: object) -> None:
    """Hold on to something between two clicks."""
    st.session_state[f"held_{name}"] = value


def let_go(name: str) -> None:
    """Hold on to it no more."""
    st.session_state.pop(f"held_{name}", None)


def keep_beginning(*prefixes: str) -> None:
    """Hold on to what was chosen under keys that begin so, whether or not it is drawn this time."""
    for key in [key for key in st.session_state if str(key).startswith(prefixes)]:
        st.session_state[key] = st.session_state[key]


def component_value(key: str, name: str) -> Any:
    """What a component on the page has just told."""
    return getattr(st.session_state[key], name)


def opened_fields() -> dict[str, Any]:
    """The fields of the job as it was opened; empty where none was."""
    return dict(st.session_state.get(_OPENED, {}))


def forget_beginning(prefix: str) -> None:
    """Nothing any more of what was chosen under keys that begin so."""
    for key in choices_beginning(prefix):
        del st.session_state[key]


def forget_choice(key: str) -> None:
    """Nothing any more of what was chosen under this key alone."""
    st.session_state.pop(key, None)


def forget_job() -> None:
    """An empty form again; the choices of other screens stay."""
    for key in _choice_keys():
        del st.session_state[key]
    forget_beginning(BESIDE_JOB)
    for key in (_OPENED, _PICKED, _ASKED_FOR):
        st.session_state.pop(key, None)
    for name in (FOLDED, JOB_DRAFT, SAVED_AS, SOUND):
        let_go(name)


def forget_visit() -> None:
    """No visit on the page any more, and nothing that was measured for one."""
    forget_beginning(VISIT_READINGS)
    for name in (VISIT, VISIT_SAVED_AS, SOUND_VISIT):
        let_go(name)


def pick_port(port_id: str) -> None:
    """Show the section of this port, at once and in the list of holes."""
    st.session_state[_PICKED] = st.session_state[_ASKED_FOR] = port_id


def port_asked_for() -> str:
    """The port picked in the picture, until its section is put away; "" where none is."""
    return str(st.session_state.get(_ASKED_FOR, ""))


def put_port_away() -> None:
    """Show no section over the answer any more."""
    st.session_state.pop(_ASKED_FOR, None)


def picked_port(*, among: Sequence[str], first: str) -> str:
    """The port whose section is shown; `first` until one of these was picked."""
    if st.session_state.get(_PICKED) not in among:
        st.session_state[_PICKED] = first
    return str(st.session_state[_PICKED])


PICKED_PORT_KEY = _PICKED
"""Key of the list that picks a port, kept in step with the picture."""


def take_job_to_start_with() -> Path | None:
    """The job file the page was started with, told once a visit: after that the form is the visitor's."""
    job = job_to_start_with()
    if job is None or st.session_state.get(_WELCOMED):
        return None
    st.session_state[_WELCOMED] = True
    return job


def _choice_keys() -> list[str]:
    return [str(key) for key in st.session_state if str(key).startswith(_CHOICES) and not str(key).startswith(_OTHERS)]


def files_beside(is_beside_first: bool) -> tuple[Path, ...]:
    """The files the page was started with, where they count beside those that are opened; else none."""
    return catalog_to_start_with() if is_beside_first else ()
