"""What a frame file says of a value that was read at the bicycle: which, by whom, when, with what."""

from typing import Annotated

from pydantic import Field

from catalog.fields import Entry, Name, Note
from planner.parts import ReadWhat


class ReadingEntry(Entry):
    """One reading; the figure itself stands in its own field, as the last reading left it."""

    what: Annotated[ReadWhat, Field(title="what", description="Which figure was read.")]
    value: Annotated[Name, Field(title="value", description="As it was told.")]
    by: Annotated[Name, Field(title="by", description="Who read it.")]
    on: Annotated[
        str, Field(title="on", description="The day, such as 2031-03-14.", pattern=r"^\d{4}-\d\d-\d\d$", max_length=10)
    ]
    tool: Annotated[Note, Field(title="tool", description="What it was read with.")] = ""


Readings = Annotated[
    tuple[ReadingEntry, ...],
    Field(title="readings", description="Who read its figures, when and with what, in the order they were read."),
]
