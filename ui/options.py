"""Options that several commands share."""

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

STORE_FILE = "lineplan.sqlite"
"""The store where nobody names another place: a file in the working folder."""


class PaperSize(StrEnum):
    """Sizes of paper one can print on."""

    A4 = "a4"
    LETTER = "letter"


StoreOption = Annotated[
    str,
    typer.Option(
        "--store", envvar="LINEPLAN_STORE", help="The store: a file, or the address of a PostgreSQL database."
    ),
]
ByOption = Annotated[
    str | None, typer.Option("--by", envvar="LINEPLAN_BY", help="Your name, for the history. [login name]")
]
NoteOption = Annotated[str, typer.Option("--note", help="Why, for the history.")]
StoreCatalogOption = Annotated[
    list[Path] | None,
    typer.Option(
        "--catalog",
        "-c",
        help="A catalog file or folder; may be given more than once. [the store's catalog; without one the starter]",
    ),
]
DateOption = Annotated[str | None, typer.Option("--date", help="The day to print, such as 2031-03-14. [today]")]
ShopNameOption = Annotated[
    str, typer.Option("--shop-name", envvar="LINEPLAN_SHOP", help="The name of the workshop, to print.")
]
ForOption = Annotated[str | None, typer.Option("--for", help="Whom it is for.")]
OverOption = Annotated[
    int | None, typer.Option("--over", help="The version you saw last, which yours is to replace.", min=1)
]
