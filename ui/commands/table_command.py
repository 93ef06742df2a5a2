"""The command that makes tables of frames against brakes and tells those that are kept, and its options."""

from collections.abc import Sequence
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Any, NoReturn

import typer

from ui.commands.options import (
    STORE_FILE,
    BareOption,
    BrakeEnd,
    ByOption,
    NoteOption,
    PageCatalogOption,
    ReplaceOption,
    StoreOption,
)


class OutcomeWord(StrEnum):
    """The outcomes of a pair; as the planner's, which this file does not wait for."""

    FITS = "fits"
    TIGHT = "tight"
    UNKNOWN = "unknown"
    NO_FIT = "no_fit"


FramesOption = Annotated[
    list[Path] | None,
    typer.Option("--frames", help="Frame files, job files without new, folders of them; again for more."),
]
ToOption = Annotated[
    Path | None,
    typer.Option("--to", help="Where the rows go: a file that ends in .csv or .parquet; store for the store."),
]
BrakesOption = Annotated[
    list[Path] | None, typer.Option("--brakes", help="Files or folders with the brakes. [all there are]")
]
EndsOption = Annotated[BrakeEnd, typer.Option("--ends", help="Which brake is asked about on frames without a job.")]
ProcessesOption = Annotated[
    int | None, typer.Option("--processes", help="How many work on it. [one for each core]", min=1, max=256)
]
SchedulerOption = Annotated[
    str, typer.Option("--scheduler", help="Let a cluster work on it: the address of a dask.distributed scheduler.")
]
FromOption = Annotated[
    str, typer.Option("--from", help="Tell what is kept instead: store for all tables, or the number of one.")
]
OnlyOption = Annotated[
    list[OutcomeWord] | None, typer.Option("--only", help="With --from: pairs of this outcome; again for more.")
]
OnlyFramesOption = Annotated[
    str, typer.Option("--only-frames", help="With --from: frames in whose name or id these words stand.")
]
OnlyBrakesOption = Annotated[
    str, typer.Option("--only-brakes", help="With --from: brakes in whose name or id these words stand.")
]
ForgetOption = Annotated[bool, typer.Option("--forget", help="With --from NUMBER: put that table away for good.")]


def add_table_command(app: typer.Typer) -> None:
    """Give a program the command of this file."""
    app.command()(table)


def table(
    frames: FramesOption = None,
    to: ToOption = None,
    brakes: BrakesOption = None,
    ends: EndsOption = BrakeEnd.REAR,
    catalog: PageCatalogOption = None,
    bare: BareOption = False,
    replace: ReplaceOption = False,
    processes: ProcessesOption = None,
    scheduler: SchedulerOption = "",
    from_: FromOption = "",
    only: OnlyOption = None,
    only_frames: OnlyFramesOption = "",
    only_brakes: OnlyBrakesOption = "",
    forget: ForgetOption = False,
    store: StoreOption = STORE_FILE,
    by: ByOption = None,
    note: NoteOption = "",
) -> None:
    """Every frame against every brake: which goes on which, what it takes, what stops it."""
    making = (("frames", frames), ("brakes", brakes), ("catalog", catalog), ("scheduler", scheduler))
    telling = (("only", only), ("only-frames", only_frames), ("only-brakes", only_brakes), ("forget", forget))
    if from_:
        _refuse_given((*making, ("processes", processes)), allowed="files to make a table of, or --from")
        raise typer.Exit(_tell(from_, only or [], only_frames, only_brakes, store, to, replace, forget))
    _refuse_given(telling, allowed="together with --from store or --from NUMBER")
    if not frames or to is None:
        _refuse("frames" if not frames else "to", "not given", "--frames FRAMES --to FILE, or --from store")
    from ui.commands.table import TableQuestion, run_table

    question = TableQuestion(
        frames=tuple(frames),
        brakes=tuple(brakes or ()),
        catalogs=tuple(catalog or ()),
        ends=ends.value,
        to=to,
        place=store,
        by=by,
        note=note,
        replaces=replace,
        is_bare=bare,
        processes_n=processes,
        scheduler=scheduler,
    )
    raise typer.Exit(run_table(question))


def _tell(
    which: str,
    only: Sequence[OutcomeWord],
    only_frames: str,
    only_brakes: str,
    place: str,
    to: Path | None,
    replace: bool,
    forget: bool,
) -> int:
    from ui.commands.kept_tables import KeptQuestion, run_kept
    from ui.table.kept import Pick

    pick = Pick(frames=only_frames, brakes=only_brakes, outcomes=tuple(outcome.value for outcome in only))
    return run_kept(KeptQuestion(which=which, pick=pick, place=place, to=to, replaces=replace, forgets=forget))


def _refuse_given(options: Sequence[tuple[str, Any]], *, allowed: str) -> None:
    """Refuse options that mean nothing here."""
    given = [option for option, value in options if value]
    if given:
        _refuse(", ".join(given), "given", allowed)


def _refuse(option: str, given: str, allowed: str) -> NoReturn:
    from ui.reports.refusals import refusals_as_sentences
    from ui.shared.command_refused import CommandRefused

    with refusals_as_sentences():
        raise CommandRefused(command="table", option=option, given=given, allowed=allowed)
    raise AssertionError  # the refusal has ended the command
