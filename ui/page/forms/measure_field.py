"""Ask for a measure: a field that takes a decimal point or comma, and says at the field what it cannot read."""

from typing import Any

from planner import in_markdown as plain
from ui.page import session
from ui.shared.number_text import TypedNumber, read_measure_typed, read_number


def ask_measure(
    place: Any,
    label: str,
    *,
    key: str,
    unit: str = "mm",
    start: str = "",
    placeholder: str = "",
    takes_range: bool = False,
    is_waiting: bool = False,
) -> TypedNumber:
    """What was typed, read; where it is no number, that is said under the field.

    place : where the field goes
    unit : what it counts in
    start : what it shows until something is typed
    takes_range : whether from..to is read too
    is_waiting : whether it is only shown, for something else is to be put right first
    """
    session.start_choice(key, start)
    read = read_measure_typed if takes_range else read_number
    typed = read(place.text_input(label, key=key, placeholder=placeholder, disabled=is_waiting) or "", unit=unit)
    if typed.problem:
        place.error(plain(typed.problem), icon=":material/error:")
    elif typed.remark:
        place.caption(plain(typed.remark))
    return typed
