"""`lineplan new`: a frame or a job told in a dialogue."""

from pathlib import Path
from typing import Annotated

import typer

from ui.commands.options import STORE_FILE, BareOption, ByOption, CatalogOption, ReplaceOption, StoreOption

new_app = typer.Typer(
    name="new",
    help="Tell a frame or a job, one question after the other.",
    no_args_is_help=True,
    rich_markup_mode=None,
)

FrameFileArgument = Annotated[
    Path | None, typer.Argument(metavar="[FILE]", help="The catalog file (YAML) to write. [the store]")
]
JobFileArgument = Annotated[
    Path | None, typer.Argument(metavar="[FILE]", help="The job file (YAML) to write. [the store]")
]


@new_app.command()
def frame(
    file: FrameFileArgument = None,
    like: Annotated[
        str | None, typer.Option("--like", metavar="ID", help="Start from a frame in the catalog: its holes, its ways.")
    ] = None,
    catalog: CatalogOption = None,
    bare: BareOption = False,
    replace: ReplaceOption = False,
    store: StoreOption = STORE_FILE,
    by: ByOption = None,
) -> None:
    """Tell a frame hole by hole, in the words of the bench; then plan a line through it."""
    from ui.commands.new import NewQuestion, run_new_frame
    from ui.shared.catalog_choice import CatalogChoice

    choice = CatalogChoice(paths=tuple(catalog or ()), is_bare=bare, place=store)
    raise typer.Exit(run_new_frame(NewQuestion(file=file, choice=choice, replaces=replace, by=by), like=like))


@new_app.command()
def job(
    file: JobFileArgument = None,
    catalog: CatalogOption = None,
    bare: BareOption = False,
    replace: ReplaceOption = False,
    store: StoreOption = STORE_FILE,
    by: ByOption = None,
) -> None:
    """Tell a job: which frame, what is in it, what goes in; then plan it."""
    from ui.commands.new import NewQuestion, run_new_job
    from ui.shared.catalog_choice import CatalogChoice

    choice = CatalogChoice(paths=tuple(catalog or ()), is_bare=bare, place=store)
    raise typer.Exit(run_new_job(NewQuestion(file=file, choice=choice, replaces=replace, by=by)))
