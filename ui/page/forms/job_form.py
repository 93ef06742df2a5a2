"""Ask which frame, what comes off, what goes on, from where to where: choices on the page as the fields of a job."""

from dataclasses import dataclass
from typing import Any

import streamlit as st

from catalog import Catalog, job_complaints_by_path
from planner import in_markdown as plain
from planner.parts import Brake, Frame, HubKind, Line
from ui.page import session
from ui.page.forms.ends_form import LABELS, ask_ends, ends_keys
from ui.page.forms.fold_with_errors import fold_of_fields, remember_errors
from ui.page.forms.line_details import DETAILS_FOLD, Asking, Path, ask_details, details_choices, show_at_fields
from ui.page.forms.measure_field import ask_measure
from ui.page.forms.staying_form import ask_staying, staying_choices
from ui.page.forms.things_form import ask_frame, ask_thing
from ui.shared.job_fields import NOTHING, Choice, choice_names, choice_of, choice_words, job_of_choices, untyped_words

MORE_FOLD = "more_of_job"
"""Name of the fold of lines that stay, rotor and what is allowed."""

HUB_WORDS = {HubKind.SIX_BOLT.value: "six bolts", HubKind.SPLINED.value: "splines"}


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedJob:
    """The job as far as it is chosen.

    frame : the frame; None while none is chosen
    fields : in the words of a job file; None while something is still to be chosen
    missing : what that is, as its list is called
    untold : sentences on what is chosen and cannot be counted as it stands; with any, no answer is proven
    """

    frame: Frame | None = None
    fields: dict[str, Any] | None = None
    missing: tuple[str, ...] = ()
    untold: tuple[str, ...] = ()


def ask_job(catalog: Catalog) -> AskedJob:
    """The job chosen so far."""
    opened = session.opened_fields()
    frame = ask_frame(catalog, key="choice_frame")
    names = choice_names(catalog)
    things = {choice: name for choice, name in names.items() if choice != NOTHING}
    old_column, new_column = st.columns(2)  # three in a row would cut the names off
    old = ask_thing(old_column, "Comes off", names, key="choice_old")
    new = ask_thing(new_column, "Goes on", things, key="choice_new")
    missing = _missing({"Frame": frame, "Comes off": old, "Goes on": new})
    if frame is None:
        return AskedJob(missing=missing)
    is_as_opened = new is not None and bool(opened) and choice_of(opened["new"]) == new
    chosen = ask_ends(frame, _thing(new, catalog), opened if is_as_opened else {}) if new else None
    start, end = chosen or (None, None)
    if old is None or new is None or not start or not end:
        unended = () if chosen is None else _missing(dict(zip(LABELS, chosen, strict=True)))
        return AskedJob(frame=frame, missing=(*missing, *unended))
    ends = start, end
    title = f"{choice_words(new, catalog)} on {frame.name}"
    job = job_of_choices(frame_id=frame.id, ends=ends, old=old, new=new, title=title, opened=opened)
    places: dict[Path, Any] = {}
    more, untold = _ask_more(catalog, frame, places)
    asking = Asking(catalog=catalog, frame=frame, ends=ends, old=old, new=new, places=places, unread=untold)
    unread_more = len(untold)
    of_old, of_new = ask_details(asking)
    fields = {**job, **more, "old": _told(old, of_old), "new": _told(new, of_new)}
    complaints = job_complaints_by_path(fields, catalog)
    wrong = {str(path[0]) for path in complaints if path}
    _remember_folds(
        more=bool(unread_more or wrong & _IN_MORE), details=len(untold) > unread_more or bool(wrong & _IN_DETAILS)
    )
    untold += show_at_fields(complaints, places)
    if not untold and (untyped := untyped_words(fields, catalog)):
        st.caption(plain(f"Told beside: {'; '.join(untyped)}."))
    return AskedJob(frame=frame, fields=fields, untold=tuple(untold))


_IN_MORE, _IN_DETAILS = {"staying", "rotor", "rotor_hub", "allow"}, {"old", "new"}
"""What of a job's fields stands in which fold."""


def _remember_folds(*, more: bool, details: bool) -> None:
    """Which folds have something wrong in them; one that is open stays so while the form is."""
    is_open = bool(session.chosen(session.CHANGE_KEY))
    remember_errors(MORE_FOLD, more, stays_open=is_open)
    remember_errors(DETAILS_FOLD, details, stays_open=is_open)


def _missing(chosen: dict[str, Any]) -> tuple[str, ...]:
    return tuple(label for label, one in chosen.items() if one is None)


def _told(choice: Choice, details: dict[str, Any]) -> Any:
    """A line in the words of a job file, with what the form says of it."""
    return "none" if choice == NOTHING else {choice[0]: choice[1], **details}


def choices_of(fields: dict[str, Any]) -> dict[str, Any]:
    """What the form must show for a job to stand on it."""
    frame_id = fields["frame"]
    old, new = choice_of(fields["old"]), choice_of(fields["new"])
    from_key, to_key = ends_keys(frame_id)
    return {
        "choice_frame": frame_id,
        from_key: fields["from"],
        to_key: fields["to"],
        "choice_old": old,
        "choice_new": new,
        **details_choices(fields, old, new),
        **staying_choices(fields.get("staying", ()), frame_id),
        "choice_rotor_mm": f"{fields['rotor']:g}" if "rotor" in fields else "",
        f"choice_rotor_hub_{frame_id}": fields.get("rotor_hub"),
        "choice_remove_inserts": fields["allow"]["remove_inserts"],
        "choice_keep_old_brake": fields["allow"]["keep_old_brake"],
    }


def _thing(choice: Choice, catalog: Catalog) -> Brake | Line:
    kind, thing_id = choice
    return catalog.brakes[thing_id] if kind == "brake" else catalog.lines[thing_id]


def _ask_more(catalog: Catalog, frame: Frame, places: dict[Path, Any]) -> tuple[dict[str, Any], list[str]]:
    """What else a job file says; and a sentence for each thing that cannot be counted as it stands.

    places : where a complaint about a field is told; filled here
    """
    with fold_of_fields(MORE_FOLD, "Lines that stay, rotor, what is allowed"):
        fields: dict[str, Any] = {"allow": _ask_allowed()}
        staying, unshared = ask_staying(catalog, frame)
        places["staying",] = st.container()
        rotor = ask_measure(st, "Rotor wanted, mm (empty: not asked)", key="choice_rotor_mm")
        places["rotor",] = st.container()
        hub = st.selectbox(
            "The rotor sits on its hub by",
            list(HUB_WORDS),
            index=None,
            key=f"choice_rotor_hub_{frame.id}",
            placeholder="Not asked",
            format_func=lambda one: HUB_WORDS[one],
        )
        places["rotor_hub",] = st.container()
    untold = [f"it is not told which ports and runs {name} shares" for name in unshared]
    if rotor.problem:
        untold.append("the rotor wanted is not a number")
    if staying:
        fields["staying"] = staying
    if rotor.value is not None:
        fields["rotor"] = rotor.value
    if hub is not None:
        fields["rotor_hub"] = hub
    return fields, untold


def _ask_allowed() -> dict[str, bool]:
    session.start_choice("choice_remove_inserts", True)
    session.start_choice("choice_keep_old_brake", False)
    return {
        "remove_inserts": st.checkbox("Inserts may come out for the work", key="choice_remove_inserts"),
        "keep_old_brake": st.checkbox("The old brake is to be used again", key="choice_keep_old_brake"),
    }
