"""The commands of a shop: keep a job, tell what is kept, quote it, print its card."""

from pathlib import Path
from typing import Annotated

import typer

from planner import ReadWhat
from ui.commands.options import (
    LARGEST,
    STORE_FILE,
    BareOption,
    ByOption,
    CatalogOption,
    DateOption,
    ForOption,
    JobArgument,
    LabelSizeOption,
    NoteOption,
    OverOption,
    PaperSize,
    ReplaceOption,
    ShopNameOption,
    StoreOption,
    label_size_mm,
)
from ui.commands.store import store_app


def add_shop_commands(app: typer.Typer) -> None:
    """Give a program the commands of this file."""
    for command in (save, jobs, quote, card, handover, shopping, sheet, gauge, measured):
        app.command()(command)
    app.add_typer(store_app)


def save(
    job: JobArgument,
    catalog: CatalogOption = None,
    bare: BareOption = False,
    store: StoreOption = STORE_FILE,
    by: ByOption = None,
    for_whom: ForOption = None,
    note: NoteOption = "",
    over: OverOption = None,
) -> None:
    """Keep a job, its plan and the catalog they rest on; a saved job is planned again with the catalog as it is now."""
    from ui.commands.save import run_save
    from ui.shared.catalog_choice import CatalogChoice
    from ui.shared.job_keeping import SaveQuestion

    question = SaveQuestion(
        asked=job,
        choice=CatalogChoice(paths=tuple(catalog or ()), is_bare=bare, place=store),
        by=by,
        for_whom=for_whom,
        note=note,
        over=over,
    )
    raise typer.Exit(run_save(question))


def jobs(
    job: Annotated[str | None, typer.Argument(help="The name of a saved job, to tell all of it. [all]")] = None,
    state: Annotated[
        str | None, typer.Option("--state", help="Only jobs that are waiting, on the bench, finished or called off.")
    ] = None,
    move: Annotated[str | None, typer.Option("--move", help="Take the job to this state.")] = None,
    file: Annotated[Path | None, typer.Option("--file", help="Write the job as a job file (YAML).")] = None,
    replace: ReplaceOption = False,
    store: StoreOption = STORE_FILE,
    by: ByOption = None,
    note: NoteOption = "",
    over: OverOption = None,
) -> None:
    """Tell which jobs are kept, or all that is kept of one: its states, plans and quotes."""
    from ui.commands.jobs import JobsQuestion, run_jobs

    question = JobsQuestion(
        name=job, place=store, state=state, move=move, over=over, by=by, note=note, file=file, replaces=replace
    )
    raise typer.Exit(run_jobs(question))


def quote(
    job: Annotated[str | None, typer.Argument(help="A job file (YAML), or the name of a saved job.")] = None,
    number: Annotated[
        int | None,
        typer.Option("--number", "-n", help="Instead of a job: a kept quote, just as it was made.", min=1, max=LARGEST),
    ] = None,
    catalog: CatalogOption = None,
    bare: BareOption = False,
    pdf: Annotated[Path | None, typer.Option("--pdf", help="A PDF file to print.")] = None,
    csv: Annotated[Path | None, typer.Option("--csv", help="A CSV file of its lines, for a spreadsheet.")] = None,
    replace: ReplaceOption = False,
    json: Annotated[bool, typer.Option("--json", help="Print one JSON object instead of text.")] = False,
    size: Annotated[PaperSize | None, typer.Option("--size", help="Of the paper. [a4]")] = None,
    date: DateOption = None,
    shop_name: ShopNameOption = "",
    for_whom: ForOption = None,
    owner_brings: Annotated[
        bool, typer.Option("--owner-brings", help="The owner brings the new brake or line: it is not charged.")
    ] = False,
    save: Annotated[bool, typer.Option("--save", help="Keep it in the store, with the job and its plan.")] = False,
    replaces: Annotated[
        int | None,
        typer.Option("--replaces", help="With --save: the kept quote that this one replaces.", min=1, max=LARGEST),
    ] = None,
    move: Annotated[
        str | None, typer.Option("--move", help="With --number: take it to a state, such as handed_over or agreed.")
    ] = None,
    though_old: Annotated[
        bool, typer.Option("--though-old", help="With --move handed_over: also a draft whose days are past.")
    ] = False,
    store: StoreOption = STORE_FILE,
    by: ByOption = None,
    note: NoteOption = "",
    over: OverOption = None,
) -> None:
    """Tell what a job costs and how long it takes; print it, keep it, print it again."""
    from ui.commands.quote import QuoteOutput, QuoteQuestion, run_quote
    from ui.shared.catalog_choice import CatalogChoice
    from ui.shared.job_keeping import SaveQuestion

    question = QuoteQuestion(
        save=SaveQuestion(
            asked=job or "",
            choice=CatalogChoice(paths=tuple(catalog or ()), is_bare=bare, place=store),
            by=by,
            for_whom=for_whom,
            note=note,
            over=over,
        ),
        number=number,
        move=move,
        though_old=though_old,
        day_text=date,
        shop_name=shop_name,
        owner_brings=owner_brings,
        keeps=save,
        replaces=replaces,
        output=QuoteOutput(
            pdf=pdf, csv=csv, replaces=replace, page_size=None if size is None else size.value, as_json=json
        ),
    )
    raise typer.Exit(run_quote(question))


def card(
    job: JobArgument,
    pdf: Annotated[Path, typer.Option("--pdf", help="The PDF file to print to.")],
    label: Annotated[
        Path | None, typer.Option("--label", help="A PDF file for a label to stick on the cut line.")
    ] = None,
    label_size: LabelSizeOption = "60x30",
    replace: ReplaceOption = False,
    catalog: CatalogOption = None,
    bare: BareOption = False,
    size: Annotated[PaperSize, typer.Option("--size", help="Of the card's paper.")] = PaperSize.A4,
    date: DateOption = None,
    shop_name: ShopNameOption = "",
    store: StoreOption = STORE_FILE,
) -> None:
    """Print the job card to take to the bench: verdict, pictures, parts, steps to tick, every number behind them."""
    from ui.commands.card import CardQuestion, run_card
    from ui.shared.catalog_choice import CatalogChoice

    question = CardQuestion(
        asked=job,
        choice=CatalogChoice(paths=tuple(catalog or ()), is_bare=bare, place=store),
        pdf=pdf,
        label=label,
        label_size_mm=label_size_mm(label_size),
        replaces=replace,
        page_size=size.value,
        day_text=date,
        shop_name=shop_name,
    )
    raise typer.Exit(run_card(question))


def handover(
    job: Annotated[str, typer.Argument(help="The name of a saved job.")],
    fluid: Annotated[str | None, typer.Option("--fluid", help="What was filled in: kind, maker's name, lot.")] = None,
    fitted: Annotated[
        list[str] | None, typer.Option("--fitted", help="Line and its length as fitted in mm, such as 1=1640.")
    ] = None,
    torque: Annotated[
        list[str] | None, typer.Option("--torque", help="Step and the torque read in N m, such as 12=6.")
    ] = None,
    lever: Annotated[str | None, typer.Option("--lever", help="How the lever feels: right or not right.")] = None,
    leaks: Annotated[
        str | None, typer.Option("--leaks", help="Every joint under pressure: right or not right.")
    ] = None,
    second_look: Annotated[
        str | None, typer.Option("--second-look", help="Another person who looked over the work.")
    ] = None,
    done_by: Annotated[str | None, typer.Option("--done-by", help="Who answers for the work.")] = None,
    received_by: Annotated[str | None, typer.Option("--received-by", help="Who took the bicycle back.")] = None,
    note: Annotated[str | None, typer.Option("--note", help="Whatever else should be known.")] = None,
    pdf: Annotated[Path | None, typer.Option("--pdf", help="A PDF file to print and sign.")] = None,
    replace: ReplaceOption = False,
    store: StoreOption = STORE_FILE,
    by: ByOption = None,
) -> None:
    """Record what went in, what was read and who looked again; kept with the job, told and printed."""
    from ui.commands.hand_over import HandOverQuestion, run_hand_over

    words = {
        "fluid": fluid,
        "lever_feel": lever,
        "leaks": leaks,
        "looked_again_by": second_look,
        "done_by": done_by,
        "received_by": received_by,
        "note": note,
    }
    question = HandOverQuestion(
        name=job,
        place=store,
        words=words,
        fitted=tuple(fitted or ()),
        torques=tuple(torque or ()),
        by=by,
        pdf=pdf,
        replaces=replace,
    )
    raise typer.Exit(run_hand_over(question))


def shopping(
    agreed: Annotated[
        bool, typer.Option("--agreed", help="Only jobs whose quote is agreed, or that are on the bench.")
    ] = False,
    stock: Annotated[
        Path | None, typer.Option("--stock", help="Rolls and offcuts (YAML), as `cuts` reads them.")
    ] = None,
    pdf: Annotated[Path | None, typer.Option("--pdf", help="A PDF file to print.")] = None,
    csv: Annotated[Path | None, typer.Option("--csv", help="A CSV file, for a spreadsheet.")] = None,
    replace: ReplaceOption = False,
    store: StoreOption = STORE_FILE,
) -> None:
    """Tell what to buy: small parts, adapters and lines of all open jobs against what is on the shelf."""
    from ui.commands.shopping import run_shopping

    raise typer.Exit(
        run_shopping(place=store, only_agreed=agreed, stock_file=stock, pdf=pdf, csv=csv, replaces=replace)
    )


def sheet(
    frame: Annotated[str | None, typer.Argument(help="The id of a frame in the catalog. [a blank sheet]")] = None,
    pdf: Annotated[Path, typer.Option("--pdf", help="The PDF file to print to.")] = Path("measuring-sheet.pdf"),
    holes: Annotated[
        int, typer.Option("--holes", help="Holes on a blank sheet, windows inside counted.", min=1, max=40)
    ] = 3,
    replace: ReplaceOption = False,
    catalog: CatalogOption = None,
    bare: BareOption = False,
    size: Annotated[PaperSize, typer.Option("--size", help="Of the paper.")] = PaperSize.A4,
    date: DateOption = None,
    shop_name: ShopNameOption = "",
    store: StoreOption = STORE_FILE,
) -> None:
    """Print a sheet to take to the bicycle: what to measure with what, with room for two readings."""
    from ui.commands.sheet import SheetQuestion, run_sheet
    from ui.shared.catalog_choice import CatalogChoice

    question = SheetQuestion(
        frame_id=frame,
        choice=CatalogChoice(paths=tuple(catalog or ()), is_bare=bare, place=store),
        pdf=pdf,
        hole_count=holes,
        replaces=replace,
        page_size=size.value,
        day_text=date,
        shop_name=shop_name,
    )
    raise typer.Exit(run_sheet(question))


def gauge(
    job: JobArgument,
    pdf: Annotated[Path, typer.Option("--pdf", help="The PDF file to print to.")],
    replace: ReplaceOption = False,
    catalog: CatalogOption = None,
    bare: BareOption = False,
    size: Annotated[PaperSize, typer.Option("--size", help="Of the paper.")] = PaperSize.A4,
    date: DateOption = None,
    shop_name: ShopNameOption = "",
    store: StoreOption = STORE_FILE,
) -> None:
    """Print a paper gauge at true size: plugs for a job's holes, jaws for its joint, a ruler for the printer."""
    from ui.commands.gauge import GaugeQuestion, run_gauge
    from ui.shared.catalog_choice import CatalogChoice

    question = GaugeQuestion(
        asked=job,
        choice=CatalogChoice(paths=tuple(catalog or ()), is_bare=bare, place=store),
        pdf=pdf,
        replaces=replace,
        page_size=size.value,
        day_text=date,
        shop_name=shop_name,
    )
    raise typer.Exit(run_gauge(question))


def measured(
    frame: Annotated[str, typer.Argument(help="The id of the frame.")],
    place: Annotated[str, typer.Argument(help="The id of its port, run or zone.")],
    value: Annotated[
        str,
        typer.Argument(help="As it was read, such as 'slot 18.2x7', 1.8, or for the way a hole looks: side, along."),
    ],
    what: Annotated[
        ReadWhat, typer.Option("--as", help="Which figure: the hole itself, or another one.")
    ] = ReadWhat.OPENING,
    tool: Annotated[str, typer.Option("--with", help="What it was read with, such as drill shanks.")] = "",
    tolerance: Annotated[
        float | None, typer.Option("--tolerance", help="How far a hole's sizes may be off, mm. [the shop's own]", min=0)
    ] = None,
    by: ByOption = None,
    date: DateOption = None,
    catalog: CatalogOption = None,
    store: StoreOption = STORE_FILE,
    note: NoteOption = "",
) -> None:
    """Take a value read at the bicycle into its frame, in its file or in the store: who read it, when, with what."""
    from ui.commands.measured import MeasuredQuestion, run_measured
    from ui.shared.catalog_choice import CatalogChoice

    question = MeasuredQuestion(
        frame_id=frame,
        place_id=place,
        what=what,
        value_text=value,
        tolerance_mm=tolerance,
        tool=tool,
        by=by,
        day_text=date,
        choice=CatalogChoice(paths=tuple(catalog or ()), place=store),
        note=note,
    )
    raise typer.Exit(run_measured(question))
