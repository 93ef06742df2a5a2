"""The job's form as it is kept while one types: its choices, the job it was opened from, the catalog, the saved job."""

from collections.abc import Mapping
from hashlib import sha256
from typing import Any

from catalog import NotInStore
from ui.page import kept, session, typed_beside
from ui.page.draft_form import Form
from ui.page.uploads import Upload

FILES = "files"
"""Uploaded catalog files are kept once, whatever the number of steps that rest on them."""


def _shown() -> dict[str, Any]:
    if not session.has_choices():
        return {}
    shown = {
        "choices": {key: _packed(value) for key, value in session.job_choices().items()},
        "opened": session.opened_fields(),
        "catalog": catalog_kept(),
        "saved": session.held(session.SAVED_AS),
    }
    beside = typed_beside.typed(is_visit=False)
    return {**shown, typed_beside.LASTING: beside} if beside else shown


def _put(content: Mapping[str, Any]) -> None:
    """The catalog first, for another catalog forgets the job."""
    use_catalog_kept(content.get("catalog", {"kind": "start"}))
    session.forget_job()
    choices = {key: _unpacked(value) for key, value in content["choices"].items()}
    session.remember_opened(content.get("opened", {}), choices)
    session.put_choices(content.get(typed_beside.LASTING, {}))
    if content.get("saved"):
        session.hold(session.SAVED_AS, content["saved"])


def _title() -> str:
    frame_id = session.chosen("choice_frame")
    frame = session.catalog_in_use().frames.get(frame_id or "")
    opened = session.opened_fields()
    return str(opened.get("title") or (frame.name if frame else "no frame chosen yet"))


JOB_FORM = Form(name="job", shown=_shown, put=_put, title=_title, lasting=("saved", typed_beside.LASTING))


def _packed(value: Any) -> Any:
    """A choice as plain values: what is a tuple stays known as one."""
    if isinstance(value, tuple):
        return {"tuple": [_packed(one) for one in value]}
    return [_packed(one) for one in value] if isinstance(value, list) else value


def _unpacked(value: Any) -> Any:
    if isinstance(value, dict):
        return tuple(_unpacked(one) for one in value["tuple"])
    return [_unpacked(one) for one in value] if isinstance(value, list) else value


def catalog_kept() -> dict[str, Any]:
    """Where the catalog comes from; of files only where they are kept."""
    source = session.catalog_source()
    if source["kind"] != FILES:
        return source
    text = "\n".join(f"{file['name']}\n{file['text']}" for file in source["files"])
    id = f"{FILES}-{sha256(text.encode('utf-8')).hexdigest()[:24]}"
    drafts = kept.store().drafts
    if drafts.version(id) is None:
        drafts.save(id, {"files": source["files"]}, form=FILES)
    return {"kind": FILES, "id": id, "beside": source["beside"]}


def use_catalog_kept(wanted: Mapping[str, Any]) -> None:
    """Work with the catalog that a draft was made with, where it is another one.

    Raises NotInStore where it is of no known kind, or its files are not kept.
    """
    if wanted == catalog_kept():
        return
    match wanted["kind"]:
        case "demo":
            session.use_demo_frames()
        case "store":
            session.use_store_catalog()
        case "files":
            sent = kept.store().drafts.get(wanted["id"]).content["files"]
            uploads = [Upload(name=file["name"], content=file["text"].encode("utf-8")) for file in sent]
            session.use_uploads(uploads, is_beside_first=wanted["beside"])
        case "start":
            session.back_to_first_catalog()
        case other:
            raise NotInStore(thing=f"a catalog of kind {other}")
