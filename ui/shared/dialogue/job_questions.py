"""The questions about a job: only what its frame takes, and only parts that belong together, are offered."""

import re
from collections.abc import Mapping, Sequence
from typing import Any

from catalog import Catalog, CatalogError, Noted, job_from_fields, without_notes
from planner import check_compatibility, sentence_for
from planner.parts import Brake, Frame, Line, SetBy
from planner.verdicts import Outcome
from ui.shared.dialogue.questions import AnswerRefused, Question, Script, choices_listed, read_choice, read_yes
from ui.shared.dialogue.said_sizes import read_one
from ui.shared.dialogue.said_staying import STAYING_ALLOWED, read_staying
from ui.shared.job_fields import NOTHING, Choice, choice_names, choice_words, job_of_choices
from ui.shared.suiting_ends import end_pairs, is_made_for, suiting_anchors

Fields = dict[str, Any]
AS_IT_IS = "as it is"
_SIZE = re.compile(
    r"(?P<kind>hose|housing|cable|wire)?\s*(?P<outer>\d+[.,]?\d*)(?:\s*mm)?(?:\s*bore\s*(?P<bore>\d+[.,]?\d*))?"
)
LINE_ALLOWED = "a number or a name of the list, or a size such as “hose 5.0 bore 2.1”"
SAME_SIZE_MM = 0.06
"""What is said of a line is rounded to a tenth."""


def job_script(catalog: Catalog, *, frame_id: str | None = None) -> Script[Fields]:
    """Ask for a whole job; tells it in the fields of a job file.

    frame_id : the frame, where that is no question any more
    """
    frame = catalog.frames[frame_id or (yield _frame_question(catalog)).value]
    pairs = end_pairs(frame)
    ends = pairs[(yield _ends_question(frame, pairs)).value]
    old: Choice = (yield _old_question(catalog, frame, ends)).value
    taken = _taken_together(catalog, frame, ends, old)
    new: Choice = (yield _new_question(catalog, taken)).value
    fields = taken[new]
    if old[0] == "brake":
        fields["allow"] = {"keep_old_brake": (yield _keep_question()).value}
    staying = (yield _staying_question(catalog, frame)).value
    if staying:
        fields["staying"] = staying
    rotor = (yield _rotor_question(catalog, fields)).value if new[0] == "brake" else None
    if rotor is not None:
        fields["rotor"] = rotor
    if old != NOTHING:
        length = yield _length_question()
        if not length.is_skipped:
            fields["old"] |= {"measured_length": length.value, "measured": "between_fittings"}
    return fields


def _frame_question(catalog: Catalog) -> Question:
    choices = tuple((frame.id, frame.name) for frame in catalog.frames.values())
    return Question(
        key="frame",
        asks="Which frame?",
        allowed=choices_listed(choices) or "none is in the catalog: `lineplan new frame` makes one, -c names its file",
        explains="A frame of the catalog; `lineplan new frame` asks for another one.",
        reads=lambda typed: read_choice(typed, choices),
        default=choices[0][0] if len(choices) == 1 else None,
        choices=choices,
    )


def _ends_question(frame: Frame, pairs: Mapping[str, tuple[str, str]]) -> Question:
    choices = tuple((key, _pair_words(frame, ends)) for key, ends in pairs.items())
    return Question(
        key="ends",
        asks="Front or rear, which hand?",
        allowed=choices_listed(choices) or "none: this frame has no two ends that belong to one line",
        explains="From where to where the line runs: the lever or shifter, and what it works. “rear left” is enough.",
        reads=lambda typed: read_choice(typed, choices),
        default=choices[0][1] if choices else None,
        choices=choices,
    )


def _pair_words(frame: Frame, ends: tuple[str, str]) -> str:
    start, end = (frame.anchors[one] for one in ends)
    return f"{start.label or start.id} to {end.label or end.id}"


def _things(catalog: Catalog) -> dict[Choice, Brake | Line]:
    return {
        **{("brake", brake.id): brake for brake in catalog.brakes.values()},
        **{("line", line.id): line for line in catalog.lines.values()},
    }


def _old_question(catalog: Catalog, frame: Frame, ends: tuple[str, str]) -> Question:
    suiting = [
        choice
        for choice, thing in _things(catalog).items()
        if set(ends) <= set(suiting_anchors(frame, thing)) and is_made_for(frame, thing, end=ends[1])
    ]
    return _line_question(
        "old",
        "What is in it now?",
        "The brake whose line comes off, or the bare line by its size such as “hose 5.0 bore 2.1”: outside by calipers "
        "without force, bore by drill shanks on a cut end. “nothing” for an empty frame.",
        [*suiting, NOTHING],
        catalog,
    )


def _new_question(catalog: Catalog, taken: Mapping[Choice, Fields]) -> Question:
    explains = "Offered is what belongs on this frame and beside what comes off; what does not is left out."
    return _line_question("new", "What goes in?", explains, list(taken), catalog)


def _line_question(key: str, asks: str, explains: str, offered: Sequence[Choice], catalog: Catalog) -> Question:
    names = choice_names(catalog)
    choices = tuple((_word(choice), names[choice]) for choice in offered)
    by_word = {_word(choice): choice for choice in offered}

    def read(typed: str) -> Choice:
        by_size = [choice for choice in offered if choice[0] == "line" and _is_size(typed, catalog.lines[choice[1]])]
        return by_size[0] if len(by_size) == 1 else by_word[read_choice(typed, choices)]

    return Question(key=key, asks=asks, allowed=LINE_ALLOWED, explains=explains, reads=read, choices=choices)


def _word(choice: Choice) -> str:
    return "nothing" if choice == NOTHING else choice[1]


def _is_size(typed: str, line: Line) -> bool:
    """Whether a line has the size that was typed; its kind too where that was."""
    said = _SIZE.fullmatch(typed.casefold())
    if said is None or (said["kind"] is None and said["bore"] is None):
        return False
    sizes = [(said["outer"], line.outer_diameter_mm), (said["bore"], line.bore_diameter_mm)]
    return (said["kind"] or "") in str(line.kind) and all(
        own is not None and abs(float(told.replace(",", ".")) - own) < SAME_SIZE_MM for told, own in sizes if told
    )


def _taken_together(catalog: Catalog, frame: Frame, ends: tuple[str, str], old: Choice) -> dict[Choice, Fields]:
    """Every job that could be meant, by what goes in, as far as its parts belong together."""
    jobs = {}
    for new, thing in _things(catalog).items():
        if not (set(ends) <= set(suiting_anchors(frame, thing)) and is_made_for(frame, thing, end=ends[1])):
            continue
        title = f"{choice_words(new, catalog)} on {frame.name}"
        fields = job_of_choices(frame_id=frame.id, ends=ends, old=old, new=new, title=title, opened={})
        if new[0] == "line" and old[0] == "brake":
            fields["new"] |= _ends_of(catalog.brakes[old[1]], catalog.lines[new[1]])
        if not _what_clashes(fields, catalog):
            jobs[new] = fields
    return jobs


def _ends_of(brake: Brake, line: Line) -> Fields:
    """What the workshop can set on a fresh line of an old brake."""
    ends = {"from_end": brake.lever_end.fitting, "to_end": brake.caliper_end.fitting}
    return {
        name: Noted(value={"fitting": fitting.id}, note="as on the old line")
        for name, fitting in ends.items()
        if fitting is not None and fitting.set_by is SetBy.WORKSHOP and line.id == brake.line.id
    }


def _what_clashes(fields: Fields, catalog: Catalog) -> str:
    """Why the parts of a job do not belong together; "" where nothing speaks against it."""
    try:
        job = job_from_fields(without_notes(fields), catalog)
    except CatalogError as refusal:
        return str(refusal)
    limits, adapters = catalog.workshop.limits, catalog.workshop.adapters
    found = check_compatibility(job=job, limits=limits, adapters=adapters)
    wrong = [check for check in found.checks if check.outcome is Outcome.NO_FIT]
    return sentence_for(wrong[0]) if wrong else ""


def _keep_question() -> Question:
    return Question(
        key="keep",
        asks="Is the old brake to be used again?",
        allowed="yes or no",
        explains="Then its line is cut only where the workshop can set its fitting again.",
        reads=read_yes,
        default="no",
    )


def _staying_question(catalog: Catalog, frame: Frame) -> Question:
    return Question(
        key="staying",
        asks="What else runs through the same holes?",
        allowed=STAYING_ALLOWED,
        explains="Lines that stay while this one is changed, each with the holes it shares with it: they take room.",
        reads=lambda typed: read_staying(typed, catalog=catalog, frame=frame),
        default="nothing",
    )


def _rotor_question(catalog: Catalog, fields: Fields) -> Question:
    def read(typed: str) -> float | None:
        if typed == AS_IT_IS:
            return None
        rotor = read_one(typed, kind="mount", name="rotor_native")
        if clash := _what_clashes({**fields, "rotor": rotor}, catalog):
            raise AnswerRefused(clash.rstrip("."))
        return rotor

    return Question(
        key="rotor",
        asks="Rotor, mm?",
        allowed=f"its diameter such as 180, or {AS_IT_IS}",
        explains="Only where the job shall count on one: printed on the rotor, or measured across it, good to 1 mm.",
        reads=read,
        default=AS_IT_IS,
    )


def _length_question() -> Question:
    return Question(
        key="length",
        asks="Length between the old line's fittings, mm?",
        allowed="millimetres such as 1480, or -",
        explains="From where the line leaves one fitting to where it enters the other, laid straight, by tape: good to "
        "3 mm. If the old line reached, it is the best length there is. Often known only once it is out.",
        reads=lambda typed: read_one(typed, kind="run", name="length"),
        may_skip=True,
    )
