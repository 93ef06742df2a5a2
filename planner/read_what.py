"""Which figures of a frame are read at the bench; by itself, for commands are told of it before any part is loaded."""

from enum import StrEnum


class ReadWhat(StrEnum):
    """The figures of a frame that are read at the bench: of a port, of a run, of a zone."""

    OPENING = "opening"
    INSERT = "insert"
    LEAN = "lean"
    WALL = "wall"
    LOOKS = "looks"
    LENGTH = "length"
    BORE = "bore"
    BEND = "bend"
    CAVITY = "cavity"

    @property
    def is_hole(self) -> bool:
        """Whether it is a shape with its sizes."""
        return self in (ReadWhat.OPENING, ReadWhat.INSERT)
