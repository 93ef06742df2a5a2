"""Which figures of a frame are read at the bicycle."""

from enum import StrEnum


class ReadWhat(StrEnum):
    """The figures of a frame that are read at the bench."""

    OPENING = "opening"
    INSERT = "insert"
    LEAN = "lean"
    WALL = "wall"
    LENGTH = "length"
    BORE = "bore"
