"""Who says so: the place a figure of an entry was read."""

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from catalog.fields import Entry, Id, Name, Note


class SourceKind(StrEnum):
    """How far a figure can be trusted."""

    PUBLISHED = "published"
    MEASURED = "measured"
    COMMON_PRACTICE = "common_practice"
    INVENTED = "invented"


class SourceEntry(Entry):
    """One place figures come from."""

    title: Annotated[Name, Field(title="title", description="The work, drawing or workshop note.")]
    locator: Annotated[Note, Field(title="locator", description="Page, clause or drawing number.")] = ""
    kind: Annotated[SourceKind, Field(title="kind", description="How the figure came to be known.")] = (
        SourceKind.COMMON_PRACTICE
    )


class NamedEntry(Entry):
    """Anything that has an id and may say where its figures come from."""

    id: Id
    note: Note = ""
    source: SourceEntry | None = None
