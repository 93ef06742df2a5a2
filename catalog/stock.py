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
