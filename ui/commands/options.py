"""Options that several commands share."""

import re
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from ui.shared.store_place import STORE_FILE as STORE_FILE
from ui.shared.store_place import STORE_VARIABLE

LARGEST = 2**31 - 1
"""The highest number that a quote, version or revision can have."""


class PaperSize(StrEnum):
    """Sizes of paper one can print on."""

    A4 = "a4"
    LETTER = "letter"


class BrakeEnd(StrEnum):
    """The ends of a bicycle that have a brake; as the planner's, which this file does not wait for."""

    FRONT = "front"
    REAR = "rear"


def _plain_text(text: str | None) -> str | None:
    """Words that can be printed and kept."""
    if text is not None and any(ord(sign) < 32 or 0xD800 <= ord(sign) <= 0xDFFF for sign in text):
        raise typer.BadParameter("plain text without control characters is wanted")
    return text


def label_size_mm(text: str) -> tuple[float, float]:
    """Width and height of a label, from words such as 60x30."""
    from planner import least_label_mm

    found = re.fullmatch(r"\s*(\d+\.?\d*)\s*[x×]\s*(\d+\.?\d*)\s*(?:mm)?\s*", text)
    size_mm = tuple(float(number) for number in found.groups()) if found else ()
    least_mm = least_label_mm()
    least_words = " x ".join(f"{size:g}" for size in least_mm)
    if len(size_mm) != 2 or any(size < least for size, least in zip(size_mm, least_mm, strict=True)):
        raise typer.BadParameter(
            f"{text!r} was given; width x height in mm such as 60x30 is wanted, {least_words} or more",
            param_hint="'--label-size'",
        )
    return size_mm[0], size_mm[1]


StoreOption = Annotated[
    str,
    typer.Option("--store", envvar=STORE_VARIABLE, help="The store: a file, or the address of a PostgreSQL database."),
]
LabelSizeOption = Annotated[str, typer.Option("--label-size", help="Of the label: width x height in mm.")]
ByOption = Annotated[
    str | None,
    typer.Option("--by", envvar="LINEPLAN_BY", help="Your name, for the history. [login name]", callback=_plain_text),
]
NoteOption = Annotated[str, typer.Option("--note", help="Why, for the history.", callback=_plain_text)]
CatalogOption = Annotated[
    list[Path] | None,
    typer.Option(
        "--catalog",
        "-c",
        help="A catalog file or folder, laid over the starter catalog; may be given more than once. "
        "[the store's catalog; without one the starter]",
    ),
]
PageCatalogOption = Annotated[
    list[Path] | None,
    typer.Option(
        "--catalog", "-c", help="A catalog file or folder, laid over the starter catalog; may be given more than once."
    ),
]
BareOption = Annotated[
    bool,
    typer.Option(
        "--bare", help="Leave the starter catalog's frames, lines, parts and methods out; its shop and steps stand in."
    ),
]
JsonOption = Annotated[bool, typer.Option("--json", help="Print one JSON object instead of text.")]
JobArgument = Annotated[str, typer.Argument(help="A job file (YAML), or the name of a saved job.")]
DateOption = Annotated[str | None, typer.Option("--date", help="The day to print, such as 2031-03-14. [today]")]
ShopNameOption = Annotated[
    str,
    typer.Option(
        "--shop-name", envvar="LINEPLAN_SHOP", help="The name of the workshop, to print.", callback=_plain_text
    ),
]
ForOption = Annotated[str | None, typer.Option("--for", help="Whom it is for.", callback=_plain_text)]
ReplaceOption = Annotated[bool, typer.Option("--replace", help="Also over files that are there already.")]
OverOption = Annotated[
    int | None, typer.Option("--over", help="The version you saw last, which yours is to replace.", min=1, max=LARGEST)
]


def read_measure(text: str | float) -> float:
    """A number, or a range such as 20..45, as it is typed; what is a number already stays one.

    Raises typer.BadParameter for any other words.
    """
    from catalog import Spread, read_range

    ends = read_range(text) if isinstance(text, str) else None
    try:
        told = float(text) if ends is None else Spread(*ends)
    except ValueError:
        raise typer.BadParameter(f"{text!r} is not a number, nor a range such as 20..45") from None
    if isinstance(told, Spread) and told.low >= told.high:
        raise typer.BadParameter(f"{text!r} does not go from a smaller to a larger number")
    return told
