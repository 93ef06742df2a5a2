"""`lineplan jobs`: the jobs in the store, or all that is kept of one of them."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from catalog import FileNotWritten, JobState
from ui.reports.refusals import refusals_as_sentences
from ui.shared.command_refused import CommandRefused
from ui.shared.days import time_zone_of
from ui.shared.exit_status import ExitStatus
from ui.shared.job_facts import JobFacts, facts_of
from ui.shared.state_words import state_of
from ui.shared.store_place import opened_store, who_saves
from ui.shared.target_files import Target, refuse_bad_targets

if TYPE_CHECKING:
    from catalog import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class JobsQuestion:
    """What to tell, or to do with one job.

    name : the saved job; None for all
    place : the store
    state : tell only the jobs in this state; None for all
    move : take the job to this state; None to leave it
    over : the version that was seen last; None for the one it has now
    by, note : who moves it, and why
    file : write the job as a job file; None where it is not wanted
    replaces : whether a file that is there may be lost
    """

    name: str | None
    place: str
    state: str | None = None
    move: str | None = None
    over: int | None = None
    by: str | None = None
    note: str = ""
    file: Path | None = None
    replaces: bool = False


def run_jobs(question: JobsQuestion) -> int:
    """Tell what is kept; returns the exit status."""
    with refusals_as_sentences():
        _refuse_mixed(question)
        refuse_bad_targets(Target(path=question.file, endings=(".yaml",), replaces=True))
        with opened_store(question.place, creates=False) as store:
            if question.name is None:
                wanted = None if question.state is None else state_of(question.state, JobState, command="jobs")
                briefs, time_zone = store.briefs(wanted), time_zone_of(store)
            else:
                facts = _done_and_told(store, question, question.name)
    from ui.reports.jobs_report import print_job, print_jobs

    if question.name is None:
        print_jobs(briefs, state=question.state, time_zone=time_zone)
    else:
        print_job(facts)
    return ExitStatus.DONE


def _refuse_mixed(question: JobsQuestion) -> None:
    """What is done with one job needs its name; what picks among all of them does not go with one."""
    for option, is_given in (("move", question.move), ("file", question.file), ("over", question.over)):
        if is_given is not None and question.name is None:
            raise CommandRefused(
                command="jobs", option=option, given="given without a job", allowed="together with the name of one"
            )
    if question.state is not None and question.name is not None:
        raise CommandRefused(
            command="jobs", option="state", given="given with one job", allowed="--move STATE to change it"
        )


def _done_and_told(store: "Store", question: JobsQuestion, name: str) -> JobFacts:
    """Do what was asked with one job, then gather all there is to tell about it."""
    from catalog import file_obstacle, job_file_text, write_file

    job = store.jobs.get(name)
    text = job_file_text(job.content)  # taking the job to another state does not change what its file says
    if question.file is not None:
        in_the_way = file_obstacle(question.file, replaces=question.replaces, content=text)
        if in_the_way is not None:
            raise FileNotWritten([in_the_way])
    if question.move is not None:
        to = state_of(question.move, JobState, command="jobs")
        based_on = job.version if question.over is None else question.over
        who = who_saves(question.by, command="jobs")
        job = store.jobs.move(name, to, based_on=based_on, by=who, note=question.note)
    if question.file is not None:
        write_file(question.file, text, replaces=question.replaces)
    return facts_of(store, job)
