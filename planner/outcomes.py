"""How a question can end, and the moments it is asked about."""

from enum import IntEnum, StrEnum


class Outcome(IntEnum):
    """Worst last, so that `max` of several outcomes is the outcome of them together."""

    FITS = 0
    TIGHT = 1
    UNKNOWN = 2
    NO_FIT = 3

    @property
    def word(self) -> str:
        """The word of the file formats: fits, tight, unknown or no_fit."""
        return self.name.lower()

    @property
    def lets_work_begin(self) -> bool:
        """Whether hands may act on it: a no, and what is not proven, keep them off the bicycle."""
        return self <= Outcome.TIGHT


class FitClass(StrEnum):
    """The fit classes of ISO 286-1, told beside an outcome."""

    CLEARANCE = "clearance"
    TRANSITION = "transition"
    INTERFERENCE = "interference"


class State(StrEnum):
    """The two moments a line is checked in."""

    DRAWING = "drawing"
    RIDING = "riding"


class NoWay(StrEnum):
    """Why there is no way between the two ends of a job."""

    STOPPED = "stopped"
    """There are ways; each is stopped at one of the places named."""

    NOT_LINKED = "not_linked"
    """The runs do not link the two ends."""

    PORT_TWICE = "port_twice"
    """The runs link them only by going through a port there and back."""

    OLD_ROUTE = "old_route"
    """The ports that the old line is said to run through make no way."""

    NO_METHOD = "no_method"
    """No method can be used at all, so that no place was asked."""
