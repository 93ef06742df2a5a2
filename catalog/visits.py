"""Visits: several lines changed on one frame in one go."""

from typing import Annotated, ClassVar, Literal

from pydantic import BeforeValidator, Field

from catalog.fields import Entry, Id, Name, RotorDiameter, YesNo
from catalog.jobs import AllowEntry, JobEntry, NewLineEntry, OldLineEntry, StayingLineEntry, none_word
from catalog.methods import MOST_TIED
from catalog.sources import NamedEntry
from planner.parts import HubKind

MOST_LINES = 10


class VisitLineEntry(Entry):
    """One line of a visit, with the fields that a job of one line has."""

    id: Id
    from_: Annotated[Id, Field(alias="from", title="from", description="The anchor where the line starts.")]
    to: Annotated[Id, Field(title="to", description="The anchor where the line ends.")]
    old: Annotated[
        OldLineEntry | None,
        BeforeValidator(none_word, json_schema_input_type=OldLineEntry | Literal["none"] | None),
        Field(title="old", description="The line there now; none where nothing lies there."),
    ]
    new: Annotated[
        NewLineEntry | None,
        BeforeValidator(none_word, json_schema_input_type=NewLineEntry | Literal["none"] | None),
        Field(title="new", description="The line that goes in; none for one that is only taken out."),
    ]
    through: Annotated[
        tuple[Id, ...], Field(title="through", description="Ports a line must take that is only put in.")
    ] = ()
    rotor: RotorDiameter | None = None
    rotor_hub: Annotated[HubKind, Field(title="rotor hub", description="How the rotor sits on its hub.")] | None = None


class VisitAllowEntry(AllowEntry):
    """What the job allows, all lines together."""

    take_out_first: Annotated[
        YesNo, Field(description="Whether an old line may come out before its new one goes in.")
    ] = True


class VisitEntry(NamedEntry):
    """Several lines in one visit."""

    MOVED: ClassVar[dict[str, str]] = dict.fromkeys(
        ("from", "to", "old", "new", "rotor", "rotor_hub", "through"), "each line under lines has its own"
    )

    title: Name | None = None
    frame: Id
    lines: Annotated[
        tuple[VisitLineEntry, ...],
        Field(min_length=1, max_length=MOST_LINES, title="lines", description="The lines of the visit, in any order."),
    ]
    staying: tuple[StayingLineEntry, ...] = ()
    first: Annotated[
        tuple[Id, ...], Field(title="first", description="Lines wanted before all others, in this order.")
    ] = ()
    before: Annotated[
        tuple[Annotated[tuple[Id, ...], Field(min_length=2, max_length=MOST_LINES)], ...],
        Field(title="before", description="Lines wanted in this order, each list by itself, whatever lies between."),
    ] = ()
    together: Annotated[
        tuple[Annotated[tuple[Id, ...], Field(min_length=2, max_length=MOST_TIED + 1)], ...],
        Field(
            title="together",
            description="Lines drawn in with one draw through the same holes; one of each list may have an old line.",
        ),
    ] = ()
    allow: VisitAllowEntry = VisitAllowEntry()


class JobFile(Entry):
    """A whole job file: one line, or several under lines."""

    format: Literal[1]
    job: JobEntry | VisitEntry
