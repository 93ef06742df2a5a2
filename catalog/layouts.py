"""What is usual of a frame or bar where its owner told nothing, read from `layouts.yaml` beside this file."""

from enum import StrEnum
from functools import lru_cache
from pathlib import Path

from catalog.fields import Entry
from catalog.yaml_text import read_yaml
from planner.parts import BarKind

DEFAULTS_FILE = Path(__file__).parent / "layouts.yaml"


class Layout(StrEnum):
    """What sort of frame it is."""

    HARDTAIL = "hardtail"
    SINGLE_PIVOT = "single_pivot"
    FOUR_BAR = "four_bar"
    DROP_BAR = "drop_bar"
    STEP_THROUGH = "step_through"
    EBIKE = "ebike"


class LayoutDefaults(Entry):
    """What is usual of one layout, in mm.

    down_tube_short : how far before the bottom bracket the down tube's cavity ends
    pivot : (x, z) of a swingarm's pivot; None where there is none that is usual
    """

    bb_drop: float
    spacing: float
    bar: BarKind
    down_tube_short: float = 50.0
    swingarm: bool = False
    steps_low: bool = False
    pivot: tuple[float, float] | None = None


class OutletDefaults(Entry):
    """Where a line leaves a lever or shifter, on the left side."""

    inboard: float
    ahead: float
    below: float
    heading: tuple[float, float, float]


class BarDefaults(Entry):
    """What is usual of one kind of bar, in mm and degrees."""

    rise: float = 0.0
    sweep: float = 0.0
    upsweep: float = 0.0
    spacers: float
    bar_reach: float = 0.0
    lock: float
    lever: OutletDefaults
    shifter: OutletDefaults


class _Defaults(Entry):
    layouts: dict[Layout, LayoutDefaults]
    bars: dict[BarKind, BarDefaults]


@lru_cache(maxsize=1)
def _defaults() -> _Defaults:
    return _Defaults.model_validate(read_yaml(DEFAULTS_FILE.read_bytes()).value)


def layout_defaults(layout: Layout) -> LayoutDefaults:
    """What is usual of a frame of this layout."""
    return _defaults().layouts[layout]


def bar_defaults(bar: BarKind) -> BarDefaults:
    """What is usual of a bar of this kind."""
    return _defaults().bars[bar]
