"""Stock files: rolls, supplied lengths and offcuts on the shelf, to cut new lines from."""

from typing import Annotated, Literal

from pydantic import Field

from catalog.fields import Entry, Id, LineLength, Money, YesNo
from catalog.sources import NamedEntry

Quantity = Annotated[
    int,
    Field(
        strict=True,
        ge=0,
        le=10_000,
        title="quantity",
        description="How many there are; left out for rolls that can be had as often as wanted.",
        json_schema_extra={"unit": "pieces"},
    ),
]
Kerf = Annotated[
    float,
    Field(
        strict=True,
        allow_inf_nan=False,
        ge=0,
        le=10,
        title="kerf",
        description="What one cut takes: 0 for a knife, the thickness of the disc for a cut-off wheel.",
        json_schema_extra={"unit": "mm"},
    ),
]


class StockEntry(NamedEntry):
    """Rolls, lengths or offcuts of one line that are equally long."""

    line: Annotated[Id, Field(title="line", description="The line it is, by its id in the catalog.")]
    length: LineLength
    quantity: Quantity | None = None
    offcut: Annotated[
        YesNo, Field(title="offcut", description="Left from earlier work: it is used first, and opens no roll.")
    ] = False
    price: Money | None = None


class TakenPiece(Entry):
    """A length that was cut for a job."""

    job: Annotated[Id, Field(title="job", description="The job it was cut for, by its id.")]
    line: Annotated[Id, Field(title="line", description="The line it was cut from, by its id in the catalog.")]
    length: LineLength


class TakenEntry(Entry):
    """A cut list that was taken from this stock, written by `lineplan cuts --write-stock`."""

    on: Annotated[
        str,
        Field(
            pattern=r"^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$",
            title="day",
            description="The day it was taken, such as 2031-03-14.",
        ),
    ]
    pieces: Annotated[tuple[TakenPiece, ...], Field(title="pieces", description="What was cut, for which jobs.")]
    whole: Annotated[YesNo, Field(title="whole", description="Whether every piece that was asked for was cut.")] = True
    cuts: Annotated[
        str, Field(title="cuts", description="The whole cut list, to tell it again; written by the program.")
    ]


class StockFile(Entry):
    """A whole stock file."""

    format: Literal[1] = 1
    stock: Annotated[
        tuple[StockEntry, ...], Field(title="stock", description="A list of rolls, supplied lengths and offcuts.")
    ]
    kerf: Kerf = 0.0
    keep_offcut_from: (
        Annotated[
            LineLength,
            Field(title="keep offcuts from", description="End pieces at least this long are kept as stock."),
        ]
        | None
    ) = None
    taken: Annotated[
        tuple[TakenEntry, ...],
        Field(
            title="taken",
            description="Cut lists that were taken from this stock: the same list again takes nothing.",
        ),
    ] = ()
