"""What a table knows of one case and many brakes: each different answer once, and which brake has which."""

from dataclasses import dataclass

from planner.parts import JobEnd
from planner.verdicts import Check, Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class Decider:
    """What decided an answer, in the words of the file formats.

    rule : the rule; or why there is no way at all; "" where nothing was asked
    place_id : the port, or else the run, it was asked at; "" for none
    clearance_mm : room minus size; None where it has none
    """

    rule: str = ""
    place_id: str = ""
    clearance_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WayAnswer:
    """Whether a line gets through, and how it does best; without a word about parts and supplied length.

    outcome : NO_FIT where nothing gets through
    method_id, feed_from : how; None where nothing gets through
    cut_old_at : the end at which the old line is cut; None where it is not
    route : ids of the ports
    decider : the tightest place of the way; of a no the nearest miss
    cut_mm : length the new line is cut to; None where there is no way or its length is not known
    missing : place and rule of everything on the way that was not measured or not proven
    """

    outcome: Outcome
    method_id: str | None = None
    feed_from: JobEnd | None = None
    cut_old_at: JobEnd | None = None
    route: tuple[str, ...] = ()
    decider: Decider
    cut_mm: float | None = None
    missing: tuple[tuple[str, str], ...] = ()

    @property
    def has_way(self) -> bool:
        """Whether anything gets through, proven or not."""
        return self.method_id is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class PartsAnswer:
    """Whether the parts belong together, as far as that is known.

    outcome : FITS, or NO_FIT for what is known not to belong together
    decider : the first that does not
    adapter_id : what goes between frame and caliper; None where nothing does
    asks : rules of what is not known or wants care, which the owner settles
    """

    outcome: Outcome
    decider: Decider
    adapter_id: str | None = None
    asks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseAnswers:
    """All answers about one case.

    case_id : whose
    ways, parts : the different answers
    way_of, parts_of : for each look of a brake, in the order the looks were asked in, which of these it has
    """

    case_id: str
    ways: tuple[WayAnswer, ...]
    parts: tuple[PartsAnswer, ...]
    way_of: tuple[int, ...]
    parts_of: tuple[int, ...]


def decider_told(check: Check | None) -> Decider:
    """What is kept of the check that decides; of none, nothing."""
    if check is None:
        return Decider()
    place_id = check.port_id or check.run_id or ""
    return Decider(rule=check.rule.value, place_id=place_id, clearance_mm=check.clearance_mm)
