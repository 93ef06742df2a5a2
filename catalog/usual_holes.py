"""What is usual of a frame's tubes and holes: the defaults that a dialogue offers and marks where they are taken."""

from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import Annotated

import yaml
from pydantic import Field

from catalog.fields import BarDiameter, CavityBore, Entry, Name, Tilt, WallThickness
from planner.parts import PortLooks, RiderSide

USUAL_FILE = Path(__file__).parent / "usual_holes.yaml"


class HoleKind(StrEnum):
    """What sort of hole it is, as far as what is usual of it goes."""

    NECK = "neck"
    """Into a tube through its side, up front."""

    BOSS = "boss"
    """Out of a tube, in a moulded or welded piece."""

    STAY = "stay"
    """Through the wall of a stay."""

    END = "end"
    """A tube's open end."""

    WINDOW = "window"
    """Between two cavities."""

    HEADSET = "headset"
    """In the headset's cover or under it."""


class UsualTube(Entry):
    """A tube as people call it.

    words : how it is called, without "tube"
    ends : of its first and its last end, by its middle line's direction
    stay : which of two it is
    """

    name: Name
    words: tuple[Name, ...]
    ends: tuple[Name, Name]
    bore: CavityBore
    stay: RiderSide | None = None


class UsualHole(Entry):
    """What is usual of a hole of one sort."""

    tilt: tuple[Tilt, Tilt]
    looks: PortLooks
    lean: Annotated[float, Field(ge=0, le=90)] | None = None


class UsualFrame(Entry):
    """What is usual where nobody told.

    walls : by what the frame is made of
    """

    tubes: dict[str, UsualTube]
    holes: dict[HoleKind, UsualHole]
    walls: dict[str, WallThickness]
    headset_cover_wall: WallThickness
    bar_clamp: BarDiameter
    drop_bar_clamp: BarDiameter


@cache
def usual_frame() -> UsualFrame:
    """What is usual, as it comes with the program."""
    return UsualFrame.model_validate(yaml.safe_load(USUAL_FILE.read_text(encoding="utf-8")))
