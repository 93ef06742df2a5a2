"""The terminal commands. Each loads what it needs when it is called, so that none waits for another's libraries."""

import gc
import sys
from pathlib import Path
from typing import Annotated

import typer

from ui.commands.hole_commands import add_hole_commands
from ui.commands.new_options import new_app
from ui.commands.options import (
    STORE_FILE,
    BareOption,
    CatalogOption,
    JobArgument,
    JsonOption,
    ReplaceOption,
    StoreOption,
    read_measure,
)
from ui.commands.page_commands import add_page_commands
from ui.commands.plain_values import take_plain_values
from ui.commands.shop_commands import add_shop_commands
from ui.commands.table_command import add_table_command
from ui.shared.exit_status import ExitStatus
from ui.shared.printable_stream import guard_streams, lead_nowhere

GARBAGE_THRESHOLD = 200_000
"""A command lives for a second or two: looking for garbage after every 700 objects costs it a tenth of that."""

app = typer.Typer(
    name="lineplan",
    help="Plan how a new hose, housing or wire gets through a bicycle frame, before a tool is lifted.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)


@app.command()
def plan(
    job: JobArgument,
    catalog: CatalogOption = None,
    bare: BareOption = False,
    json: JsonOption = False,
    whole: Annotated[bool, typer.Option("--all", help="Tell everything: figures, reasons, all ways.")] = False,
    pictures: Annotated[
        Path | None, typer.Option("--pictures", help="A folder to write the side view and the holes to, as SVG.")
    ] = None,
    replace: ReplaceOption = False,
    store: StoreOption = STORE_FILE,
) -> None:
    """Plan one job: which way, which joint, which end, how long, step by step."""
    from ui.commands.plan import run_plan

    status = run_plan(
        job,
        catalog,
        as_json=json,
        is_whole=whole,
        pictures=pictures,
        replaces=replace,
        is_bare=bare,
        place=store,
    )
    raise typer.Exit(status)


@app.command()
def fit(
    opening: Annotated[
        str,
        typer.Option(help="The hole: 'round D', 'slot LxW', 'oval LxW', 'box LxW rR' or 'goes D', in mm."),
    ] = "",
    item: Annotated[
        list[float] | None, typer.Option(help="Diameter of a thing that goes through, in mm; once for each.")
    ] = None,
    joint: Annotated[
        str | None, typer.Option(help="A joint of the catalog that goes through, in place of its size; needs --line.")
    ] = None,
    line: Annotated[
        list[str] | None, typer.Option(help="A line of the catalog that is joined; twice for the old and the new.")
    ] = None,
    smallest: Annotated[
        str | None,
        typer.Option(help="Tell the smallest hole instead: 'round', or how long a 'slot W' or 'box W rR' must be."),
    ] = None,
    largest_item: Annotated[
        bool, typer.Option("--largest-item", help="Tell the thickest thing that goes beside the others instead.")
    ] = False,
    tilt: Annotated[
        float,
        typer.Option(
            parser=read_measure, metavar="N or A..B", help="How far the line leans along the hole's length, in degrees."
        ),
    ] = 0.0,
    wall: Annotated[
        float, typer.Option(parser=read_measure, metavar="N or A..B", help="Thickness of the wall, in mm.")
    ] = 0.0,
    tolerance: Annotated[
        float | None, typer.Option(help="Plus or minus on the hole's sizes, in mm. [the shop's]")
    ] = None,
    item_tolerance: Annotated[float, typer.Option(help="Plus or minus on the things' diameters, in mm.")] = 0.0,
    rigid: Annotated[
        float | None, typer.Option(help="Length of the first thing if it is stiff, in mm; needs --bore.")
    ] = None,
    bore: Annotated[
        float | None,
        typer.Option(
            parser=read_measure,
            metavar="N or A..B",
            help="Clear bore of the tube behind the hole, in mm; needs --rigid.",
        ),
    ] = None,
    catalog: CatalogOption = None,
    bare: BareOption = False,
    store: StoreOption = STORE_FILE,
    json: JsonOption = False,
) -> None:
    """Ask whether things pass a hole side by side."""
    from ui.commands.fit import run_fit
    from ui.shared.catalog_choice import CatalogChoice
    from ui.shared.fit_question import FitQuestion
    from ui.shared.joint_asked import JointAsked

    question = FitQuestion(
        opening_text=opening,
        item_diameters_mm=tuple(item or ()),
        tilt_deg=tilt,
        wall_thickness_mm=wall,
        tolerance_mm=tolerance,
        item_tolerance_mm=item_tolerance,
        rigid_length_mm=rigid,
        bore_mm=bore,
        smallest_text=smallest,
        asks_largest=largest_item,
    )
    asked = JointAsked(method_id=joint or "", line_ids=tuple(line or ())) if joint or line else None
    choice = CatalogChoice(paths=tuple(catalog or ()), is_bare=bare, place=store)
    raise typer.Exit(run_fit(question, asked, choice, as_json=json))


@app.command()
def check(
    files: Annotated[
        list[str], typer.Argument(metavar="FILES...", help="Catalog files, job files, folders, names of saved jobs.")
    ],
    bare: BareOption = False,
    store: StoreOption = STORE_FILE,
) -> None:
    """Check catalog and job files; tells everything that is wrong at once."""
    from ui.commands.check import run_check

    raise typer.Exit(run_check(files, is_bare=bare, place=store))


@app.command()
def cuts(
    jobs: Annotated[
        list[str],
        typer.Argument(metavar="JOB...", help="Job files (YAML) or names of saved jobs; twice is cut twice."),
    ],
    stock: Annotated[Path, typer.Option("--stock", help="The stock file (YAML): rolls, lengths, offcuts.")],
    catalog: CatalogOption = None,
    bare: BareOption = False,
    store: StoreOption = STORE_FILE,
    json: JsonOption = False,
    picture: Annotated[Path | None, typer.Option("--picture", help="An SVG file to draw the cuts to.")] = None,
    pdf: Annotated[
        Path | None, typer.Option("--pdf", help="A PDF file to print: cuts to tick, and the picture.")
    ] = None,
    write_stock: Annotated[
        Path | None,
        typer.Option("--write-stock", help="A file to write the stock that is left to; may be the stock file itself."),
    ] = None,
    all_from_stock: Annotated[
        bool, typer.Option("--all-from-stock", help="Leave lines supplied with the jobs alone where stock can do.")
    ] = False,
    again: Annotated[
        bool, typer.Option("--again", help="Cut once more what this stock was cut for before, as for a second bicycle.")
    ] = False,
    replace: ReplaceOption = False,
) -> None:
    """Cut the new lines of several jobs from as few rolls as possible."""
    from ui.commands.cuts import CutsQuestion, run_cuts
    from ui.shared.catalog_choice import CatalogChoice
    from ui.shared.cut_files import CutFiles

    question = CutsQuestion(
        asked=tuple(jobs),
        choice=CatalogChoice(paths=tuple(catalog or ()), is_bare=bare, place=store),
        stock_file=stock,
        uses_supplied=not all_from_stock,
        again=again,
        files=CutFiles(picture=picture, pdf=pdf, stock=write_stock, replaces=replace),
    )
    raise typer.Exit(run_cuts(question, as_json=json))


add_table_command(app)
add_hole_commands(app)
add_page_commands(app)
add_shop_commands(app)
app.add_typer(new_app)


def main() -> None:
    """Run the command line; what the planner or the catalog refuses is a sentence, not a traceback."""
    gc.set_threshold(GARBAGE_THRESHOLD)
    guard_streams()
    answers = sys.stdout
    command = typer.main.get_command(app)
    take_plain_values(command)
    try:
        try:
            command()
        finally:
            answers.flush()
    except BrokenPipeError:
        lead_nowhere(answers)
        sys.exit(ExitStatus.DONE)
