"""The whole catalog file: lists of entries, all of which may be left out."""

from typing import Literal

from catalog.adapters import AdapterEntry
from catalog.brakes import BrakeEntry
from catalog.fields import Entry
from catalog.fittings import FittingEntry
from catalog.frames import FrameEntry
from catalog.lines import LineEntry
from catalog.methods import MethodEntry
from catalog.shop import ShopEntry
from catalog.small_parts import SmallPartEntry
from catalog.work_steps import AtHandEntry, CautionEntry, MeasureEntry, RescueEntry, StepEntry


class CatalogFile(Entry):
    """A catalog file, or several read together."""

    format: Literal[1] = 1
    frames: tuple[FrameEntry, ...] = ()
    lines: tuple[LineEntry, ...] = ()
    fittings: tuple[FittingEntry, ...] = ()
    brakes: tuple[BrakeEntry, ...] = ()
    methods: tuple[MethodEntry, ...] = ()
    parts: tuple[SmallPartEntry, ...] = ()
    adapters: tuple[AdapterEntry, ...] = ()
    shop: ShopEntry | None = None
    steps: tuple[StepEntry, ...] = ()
    cautions: tuple[CautionEntry, ...] = ()
    rescues: tuple[RescueEntry, ...] = ()
    measures: tuple[MeasureEntry, ...] = ()
    at_hand: tuple[AtHandEntry, ...] = ()
