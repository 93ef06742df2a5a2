"""Jobs: which line is replaced on which frame, from where to where."""

from typing import Annotated, ClassVar, Literal

from pydantic import BeforeValidator, Field

from catalog.fields import Entry, Id, LineLength, Name, OutletMove, RotorDiameter, YesNo
from catalog.sources import NamedEntry
from planner.parts import HubKind, OldMeasured


class LineEndEntry(Entry):
    """What belongs on one end of a bare line, and whether it already sits there."""

    fitting: Id
    fitted: YesNo = False


class _LineChoice(Entry):
    brake: Annotated[Id, Field(title="brake", description="A brake with its own line.")] | None = None
    line: Annotated[Id, Field(title="line", description="A bare line.")] | None = None
    from_end: LineEndEntry | None = None
    to_end: LineEndEntry | None = None


class OutletMoveEntry(Entry):
    """How much more line the new outlets ask than the old ones."""

    from_: Annotated[OutletMove, Field(alias="from")] = 0.0
    to: OutletMove = 0.0


class OldLineEntry(_LineChoice):
    """The line in the frame now: that of a brake, or a bare one."""

    through: Annotated[tuple[Id, ...], Field(title="through", description="Ports it runs through, where known.")] = ()
    measured_length: LineLength | None = None
    measured: Annotated[
        OldMeasured,
        Field(title="measured", description="From where to where: between_fittings, cut_ends or with_fittings."),
    ] = OldMeasured.CUT_ENDS
    move: OutletMoveEntry | None = None
    reached: Annotated[
        YesNo | None,
        Field(title="reached", description="Whether it reached with the bar at both stops and the rear right down."),
    ] = None


class NewLineEntry(_LineChoice):
    """The line that goes in: that of a brake, or a bare one."""

    supplied_length: LineLength | None = None


class StayingLineEntry(Entry):
    """A line that stays in the frame and shares ports or runs with the new one."""

    line: Id
    through: Annotated[tuple[Id, ...], Field(min_length=1, title="through", description="Ports and runs it shares.")]


class AllowEntry(Entry):
    """What the job allows."""

    remove_inserts: YesNo = True
    keep_old_brake: YesNo = False


def none_word(value: object) -> object:
    """The word none for nothing."""
    return None if value == "none" else value


class SwapEntry(NamedEntry):
    """What a swap says but what goes in."""

    title: Name | None = None
    frame: Id
    from_: Annotated[Id, Field(alias="from", title="from", description="The anchor where the line starts.")]
    to: Annotated[Id, Field(title="to", description="The anchor where the line ends.")]
    old: Annotated[
        OldLineEntry | None,
        BeforeValidator(none_word, json_schema_input_type=OldLineEntry | Literal["none"] | None),
        Field(title="old", description="The line in the frame now; none for an empty frame."),
    ]
    staying: tuple[StayingLineEntry, ...] = ()
    rotor: RotorDiameter | None = None
    rotor_hub: Annotated[HubKind, Field(title="rotor hub", description="How the rotor sits on its hub.")] | None = None
    allow: AllowEntry = AllowEntry()


class JobEntry(SwapEntry):
    """One swap."""

    new: NewLineEntry


class CaseEntry(SwapEntry):
    """A frame with what lies in it, for a table: every brake is tried on it."""

    MOVED: ClassVar[dict[str, str]] = {"new": "a job without new, for the table tries every brake"}
