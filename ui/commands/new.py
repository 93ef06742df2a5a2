"""`lineplan new`: ask for a frame or a job, write it down, check it, say what is still unknown, plan with it."""

import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from catalog import Catalog, write_file
from ui.commands.asking import HOW_TO_ANSWER, DialogueStopped, ask_all
from ui.reports.refusals import refusals_as_sentences
from ui.shared.catalog_choice import CatalogChoice, chosen_catalog
from ui.shared.dialogue.frame_fields import frame_entry, unknown_words
from ui.shared.dialogue.frame_questions import frame_script
from ui.shared.dialogue.frame_words import PLAN_NOW
from ui.shared.dialogue.job_questions import job_script
from ui.shared.dialogue.like_frame import like_entry, like_script
from ui.shared.dialogue.questions import Question, Script, read_yes
from ui.shared.dialogue.told_files import frame_text, job_text, wrong_with_frame, wrong_with_job
from ui.shared.exit_status import ExitStatus
from ui.shared.store_place import opened_store, who_saves
from ui.shared.target_files import Target, refuse_bad_targets

YAML = (".yaml", ".yml")
STOPPED = "Stopped: nothing was written."


@dataclass(frozen=True, slots=True, kw_only=True)
class NewQuestion:
    """What is to be made of the answers.

    file : the file to write; None to keep it in the store
    choice : the catalog that the frame comes to, or the job is told with
    replaces : whether a file that is there may be lost
    by : who keeps it in the store; None for the login name
    """

    file: Path | None
    choice: CatalogChoice
    replaces: bool
    by: str | None


def run_new_frame(question: NewQuestion, *, like: str | None = None) -> int:
    """Ask for a frame, keep it, check it, then ask for a job on it and plan that; returns the exit status.

    like : a frame of the catalog to start from; None to start from nothing
    """
    with refusals_as_sentences():
        refuse_bad_targets(Target(path=question.file, endings=YAML, replaces=question.replaces))
        by = "" if question.file else who_saves(question.by, command="new frame")
        catalog = chosen_catalog(question.choice)
        start = None if like is None else like_entry(catalog, like)
        print(HOW_TO_ANSWER)
        try:
            entry, unknown = _told_frame(catalog, start)
        except DialogueStopped:
            print(STOPPED)
            return ExitStatus.BAD_INPUT
        _keep_frame(entry, question, by=by)
    print("Still unknown: " + ("; ".join(unknown) or "nothing that was asked") + ".")
    try:
        return _plan_now(entry, question)
    except DialogueStopped:
        print("No job was written; the frame is.")
        return ExitStatus.DONE


def run_new_job(question: NewQuestion, *, frame_id: str | None = None) -> int:
    """Ask for a job, keep it and plan it; returns the exit status.

    frame_id : the frame, where that is no question any more

    Raises DialogueStopped where a frame was just told and the input ends.
    """
    with refusals_as_sentences():
        refuse_bad_targets(Target(path=question.file, endings=YAML, replaces=question.replaces))
        catalog = chosen_catalog(question.choice)
        if frame_id is None:
            print(HOW_TO_ANSWER)
        try:
            fields = ask_all(
                lambda: job_script(catalog, frame_id=frame_id), wrong=lambda told: wrong_with_job(told, catalog)
            )
        except DialogueStopped:
            if frame_id is not None:
                raise
            print(STOPPED)
            return ExitStatus.BAD_INPUT
        if question.file is not None:
            write_file(question.file, job_text(fields), replaces=question.replaces)
            print(f"Written: {question.file}")
    return _planned(fields, question)


def _told_frame(catalog: Catalog, start: Mapping[str, Any] | None) -> tuple[dict[str, Any], list[str]]:
    known = tuple(catalog.frames)
    if start is not None:
        told = ask_all(lambda: like_script(start, known_ids=known), wrong=lambda made: wrong_with_frame(made.entry))
        return told.entry, list(told.unknown)
    answers = ask_all(lambda: frame_script(known_ids=known), wrong=lambda told: wrong_with_frame(frame_entry(told)))
    return frame_entry(answers), unknown_words(answers)


def _keep_frame(entry: Mapping[str, Any], question: NewQuestion, *, by: str) -> None:
    """Write its file, or read it into the store; then say what a check says."""
    from ui.commands.check import run_check

    if question.file is not None:
        write_file(question.file, frame_text(entry), replaces=question.replaces)
        print(f"Written: {question.file}")
        run_check([str(question.file)], is_bare=question.choice.is_bare, place=question.choice.place)
        return
    from catalog import prepare_import

    with _on_disk(f"{entry['id']}.frame.yaml", frame_text(entry)) as path, _store(question) as store:
        ready = prepare_import(store, [path], over_starter=not question.choice.is_bare)
        store.documents.save_all(ready.changes, by=by, note="told in a dialogue")
        print(f"Kept: frame {entry['id']} in {store.place}")


def _store(question: NewQuestion) -> Any:
    return opened_store(question.choice.place, creates=True)


@contextmanager
def _on_disk(name: str, text: str) -> Iterator[Path]:
    with tempfile.TemporaryDirectory(prefix="lineplan-") as folder:
        path = Path(folder) / name
        write_file(path, text)
        yield path


def _plan_now(entry: Mapping[str, Any], question: NewQuestion) -> int:
    """Ask whether to go on with a job on this frame, and do."""
    if not ask_all(_wants_job, wrong=lambda _: ()):
        return ExitStatus.DONE
    if question.file is None:
        return run_new_job(question, frame_id=str(entry["id"]))
    choice = CatalogChoice(
        paths=(*question.choice.paths, question.file), is_bare=question.choice.is_bare, place=question.choice.place
    )
    file = _free_name(question.file, str(entry["id"]))
    following = NewQuestion(file=file, choice=choice, replaces=False, by=question.by)
    return run_new_job(following, frame_id=str(entry["id"]))


def _wants_job() -> Script[bool]:
    asks, explains = PLAN_NOW
    answer = yield Question(key="job", asks=asks, allowed="yes or no", explains=explains, reads=read_yes, default="yes")
    return bool(answer.value)


def _free_name(frame_file: Path, frame_id: str) -> Path:
    """A name for the job's file beside the frame's that is not in use."""
    names = (
        frame_file.with_name(f"{frame_id}{number}.job.yaml") for number in ("", *(f"-{n}" for n in range(2, 1000)))
    )
    return next(name for name in names if not name.exists())


def _planned(fields: Mapping[str, Any], question: NewQuestion) -> int:
    """Plan the job that was told, and print the plan; without a file, keep both in the store first."""
    if question.file is not None:
        from ui.commands.plan import run_plan

        choice = question.choice
        return run_plan(
            question.file, choice.paths, as_json=False, pictures=None, is_bare=choice.is_bare, place=choice.place
        )
    from ui.commands.plan import run_plan
    from ui.commands.save import run_save
    from ui.shared.job_keeping import SaveQuestion

    choice = CatalogChoice(paths=question.choice.paths, is_bare=question.choice.is_bare, place=question.choice.place)
    with _on_disk(f"{fields['id']}.job.yaml", job_text(fields)) as path:
        saved = SaveQuestion(asked=str(path), choice=choice, by=question.by, for_whom=None, note="", over=None)
        run_save(saved)
    return run_plan(str(fields["id"]), None, as_json=False, pictures=None, place=choice.place)
