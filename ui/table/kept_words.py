"""What is kept of a table as plain values, and back."""

from typing import Any, TypedDict

from planner import Tally
from planner.verdicts import Outcome


class Lasting(TypedDict):
    """What the store keeps of a table as a whole, beside its cases.

    brakes : id, name, supplied length and look of each; None where the length is not measured [mm]
    frames : by id, the name and what its places are called
    things : what methods and adapters are called
    tally : as `tally_fields` has it
    refused : id and reason of cases that could not be decided
    """

    brakes: list[list[Any]]
    frames: dict[str, dict[str, Any]]
    things: dict[str, str]
    tally: dict[str, Any]
    refused: list[list[str]]


def tally_fields(tally: Tally) -> dict[str, Any]:
    """A tally as plain values."""
    return {
        "outcomes": {outcome.word: several for outcome, several in sorted(tally.outcomes.items())},
        "stops": [[*place, several] for place, several in sorted(tally.stops.items())],
        "others": dict(sorted(tally.others.items())),
        "open_by_one": [[*place, several] for place, several in sorted(tally.open_by_one.items())],
        "open_by_more": tally.open_by_more,
    }


def tally_of(fields: dict[str, Any]) -> Tally:
    """The tally that was kept."""
    words = {outcome.word: outcome for outcome in Outcome}
    tally = Tally(open_by_more=fields["open_by_more"])
    tally.outcomes.update({words[word]: several for word, several in fields["outcomes"].items()})
    tally.others.update(fields["others"])
    for name, counts in (("stops", tally.stops), ("open_by_one", tally.open_by_one)):
        counts.update({(frame_id, place_id): several for frame_id, place_id, several in fields[name]})
    return tally
