"""`lineplan store`: the catalog in the store, its history, and the store's own tables."""

from pathlib import Path
from typing import Annotated

import typer

from ui.commands.options import LARGEST, STORE_FILE, ByOption, NoteOption, ReplaceOption, StoreOption

store_app = typer.Typer(
    name="store",
    help="Keep the catalog in the store: read files in, write them out, look at its history, go back.",
    no_args_is_help=True,
    rich_markup_mode=None,
)

KindArgument = Annotated[str, typer.Argument(help="Such as frame, line, fitting, brake, method, part, shop, step.")]
IdArgument = Annotated[str, typer.Argument(help="The id in the catalog; shop for the shop.")]


@store_app.command()
def upgrade(store: StoreOption = STORE_FILE) -> None:
    """Bring the store's tables up to date with this program; a store in a file is copied first."""
    from ui.commands.store_work import run_upgrade

    raise typer.Exit(run_upgrade(store))


@store_app.command("import")
def import_(
    files: Annotated[list[Path], typer.Argument(help="Catalog files or folders.")],
    prune: Annotated[
        bool, typer.Option("--prune", help="Take entries out of use that have left their file since it was last read.")
    ] = False,
    preview: Annotated[
        bool, typer.Option("--preview", help="Only tell what would be added, changed and removed.")
    ] = False,
    store: StoreOption = STORE_FILE,
    by: ByOption = None,
    note: NoteOption = "",
) -> None:
    """Read catalog files into the store; what was changed in both is told, and then nothing is read in."""
    from ui.commands.store_work import run_import

    raise typer.Exit(run_import(files, place=store, by=by, note=note, prunes=prune, only_looks=preview))


@store_app.command()
def export(
    folder: Annotated[Path, typer.Argument(help="A folder; it is made where there is none.")],
    store: StoreOption = STORE_FILE,
    replace: Annotated[
        bool, typer.Option("--replace", help="Also over files that say something the store has never read.")
    ] = False,
) -> None:
    """Write the catalog out as files, under the names they had, comments and all."""
    from ui.commands.store_export import run_export

    raise typer.Exit(run_export(folder, place=store, replaces=replace))


@store_app.command()
def check(store: StoreOption = STORE_FILE) -> None:
    """Look through everything in the store and name what is not as it was saved."""
    from ui.commands.store_work import run_check_store

    raise typer.Exit(run_check_store(store))


@store_app.command()
def backup(
    file: Annotated[Path, typer.Argument(help="Where the copy goes; its name ends in .sqlite.")],
    store: StoreOption = STORE_FILE,
    replace: ReplaceOption = False,
) -> None:
    """Copy the whole store to a file, also while others work with it; the copy is looked through."""
    from ui.commands.store_backup import run_backup

    raise typer.Exit(run_backup(file, place=store, replaces=replace))


@store_app.command()
def restore(
    file: Annotated[Path, typer.Argument(help="A copy made by `store backup`.")], store: StoreOption = STORE_FILE
) -> None:
    """Put a copy back, once it was looked through; the store as it is now is laid beside it."""
    from ui.commands.store_backup import run_restore

    raise typer.Exit(run_restore(file, place=store))


@store_app.command()
def history(
    kind: Annotated[str | None, typer.Argument(help="Such as frame, line, brake, part. [all]")] = None,
    id: Annotated[str | None, typer.Argument(help="The id in the catalog. [all of the kind]")] = None,
    store: StoreOption = STORE_FILE,
) -> None:
    """Tell who changed what and when; without an id, list what there is."""
    from ui.commands.store_history import run_history

    raise typer.Exit(run_history(kind, id, place=store))


@store_app.command()
def back(
    kind: KindArgument,
    id: IdArgument,
    revision: Annotated[
        int, typer.Argument(help="The revision to go back to, as `store history` tells it.", min=1, max=LARGEST)
    ],
    over: Annotated[
        int | None,
        typer.Option("--over", help="The revision you saw last; a newer one is not undone unseen.", min=1, max=LARGEST),
    ] = None,
    store: StoreOption = STORE_FILE,
    by: ByOption = None,
    note: NoteOption = "",
) -> None:
    """Undo: make an old revision the current one again, as a new revision; nothing is lost."""
    from ui.commands.store_history import run_back

    raise typer.Exit(run_back(kind, id, revision, over=over, place=store, by=by, note=note))
