"""Frames and jobs told by words, without a terminal: what is typed, all else as it stands in brackets."""

from collections.abc import Callable, Mapping
from typing import TypeVar

from ui.shared.dialogue.questions import Script, Walk, walk

Told = TypeVar("Told")

TWO_HOLES = {
    "name": "Blue hardtail",
    "holes": "2",
    "hole 1 place": "down 35 left",
    "hole 1 opening": "slot 18x7",
    "hole 2 place": "down 600 left",
    "hole 2 opening": "7.4",
}
THREE_HOLES = {
    "name": "Trail bike",
    "holes": "3",
    "hole 1 place": "down 35 left",
    "hole 1 opening": "slot 18x7",
    "hole 2 place": "window to chainstay",
    "hole 2 opening": "round 7.5",
    "hole 3 place": "chainstay 360 top",
    "hole 3 opening": "round 7.2",
}
HEADSET = {
    "name": "Road bike",
    "holes": "4",
    "hole 1 place": "headset",
    "hole 1 opening": "round 10",
    "hole 2 place": "window to down",
    "hole 2 opening": "7.5",
    "hole 3 place": "window to chainstay",
    "hole 3 opening": "7.4",
    "hole 4 place": "chainstay 320 top",
    "hole 4 opening": "7.2",
    "stretch 2 guide": "8 60 35",
    "stretch 3 guide": "6.9 200 30",
    "stretch 4 guide": "6.8 180 25",
}
TABLE = {
    "reach": "430",
    "stack": "620",
    "head_angle": "66,5",
    "head_tube": "110",
    "seat_angle": "75",
    "seat_tube": "440",
    "chainstay": "435",
    "bb_drop": "60",
    "width": "780",
    "stem": "50",
    "spacers": "20",
}
"""The eight figures of a table, and three of the bar; beside `"lengths": "3"`."""


def answered(begin: Callable[[], Script[Told]], typed: Mapping[str, str]) -> Told:
    """What a script tells where these words are typed, and Enter is pressed everywhere else."""
    found: Walk[Told] = walk(begin, typed, takes_defaults=True)
    assert found.next is None, (found.next.key, found.refusal)
    assert found.told is not None
    return found.told
