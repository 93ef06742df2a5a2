"""What is known of a field by the kind of thing it belongs to: its range, its unit, the sentence that explains it."""

from functools import cache

from pydantic import BaseModel

from catalog.field_help import FieldHelp, fields_of
from catalog.frame_tables import CockpitEntry, GeometryEntry, LeverPlaceEntry
from catalog.frames import (
    AnchorEntry,
    BarEntry,
    BrakeMountEntry,
    BrakeMountsEntry,
    FourBarEntry,
    FrameEntry,
    GuideEntry,
    PortEntry,
    RunEntry,
    SinglePivotEntry,
    ZoneEntry,
)
from catalog.openings import (
    BoxOpeningEntry,
    GaugedOpeningEntry,
    InsertEntry,
    OutlineOpeningEntry,
    OvalOpeningEntry,
    RoundOpeningEntry,
    SlotOpeningEntry,
)
from catalog.port_places import OnEntry
from catalog.reading_entry import ReadingEntry
from catalog.sources import SourceEntry

FRAME_KINDS: dict[str, type[BaseModel]] = {
    "frame": FrameEntry,
    "zone": ZoneEntry,
    "port": PortEntry,
    "round": RoundOpeningEntry,
    "slot": SlotOpeningEntry,
    "oval": OvalOpeningEntry,
    "box": BoxOpeningEntry,
    "outline": OutlineOpeningEntry,
    "gauge": GaugedOpeningEntry,
    "insert": InsertEntry,
    "anchor": AnchorEntry,
    "run": RunEntry,
    "guide": GuideEntry,
    "bar": BarEntry,
    "single_pivot": SinglePivotEntry,
    "four_bar": FourBarEntry,
    "brakes": BrakeMountsEntry,
    "mount": BrakeMountEntry,
    "geometry": GeometryEntry,
    "cockpit": CockpitEntry,
    "lever": LeverPlaceEntry,
    "on": OnEntry,
    "reading": ReadingEntry,
    "source": SourceEntry,
}
"""Everything that a frame is told by, with the word for it."""


@cache
def asked_field(kind: str, name: str) -> FieldHelp:
    """One field of a frame's things.

    kind : a word of FRAME_KINDS
    name : as in the files
    """
    return fields_of(FRAME_KINDS[kind])[name]
