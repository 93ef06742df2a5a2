"""What a table comes to, in the terminal: outcomes, what stops most, what one measurement would settle."""

from collections.abc import Iterator, Mapping
from typing import Protocol

from rich.console import RenderableType
from rich.markup import escape
from rich.text import Text

from planner import Tally, most_first, rule_words
from planner.verdicts import Outcome
from ui.reports.plain_table import outcome_text, plain_table
from ui.reports.report import print_report

MOST_PLACES = 10


class PlaceWords(Protocol):
    """Who knows what frames and their places are called."""

    def frame(self, frame_id: str) -> str:
        """What a frame is called."""

    def place(self, frame_id: str, place_id: str) -> str:
        """What a place of a frame is called."""


def print_tally(tally: Tally, *, where: str, names: PlaceWords) -> None:
    """Print it for people.

    where : where the rows are, to stand after a comma
    """
    print_report(*_sections(tally, where, names))


def _sections(tally: Tally, where: str, names: PlaceWords) -> Iterator[RenderableType]:
    yield Text(f"{pairs_in_words(tally.pairs_n)} of frame and brake, {where}.", style="bold")
    outcomes = plain_table(("Outcome", "Pairs"), right=("Pairs",))
    for outcome in Outcome:
        outcomes.add_row(outcome_text(outcome), f"{tally.outcomes[outcome]}")
    yield outcomes
    yield from _places("Where it stops most often", tally.stops, "Pairs stopped", names)
    if tally.others:
        told = ", ".join(f"{rule_words(rule)} {several}" for rule, several in most_first(tally.others))
        yield Text(f"A no at no place of the frame: {told}.\n")
    yield from _places("What one measurement would settle", tally.open_by_one, "Pairs kept open", names)
    if tally.outcomes[Outcome.UNKNOWN]:
        one_n = sum(tally.open_by_one.values())
        yield Text(
            f"Of {pairs_in_words(tally.outcomes[Outcome.UNKNOWN])} not proven, {one_n} wait for one place alone, "
            f"{tally.open_by_more} for several or for something else."
        )


def _places(
    title: str, counts: Mapping[tuple[str, str], int], heading: str, names: PlaceWords
) -> Iterator[RenderableType]:
    if not counts:
        return
    table = plain_table(("Frame", "Place", heading), title=title, right=(heading,))
    for (frame_id, place_id), several in most_first(counts)[:MOST_PLACES]:
        table.add_row(escape(names.frame(frame_id)), escape(names.place(frame_id, place_id)), f"{several}")
    more = len(counts) - MOST_PLACES
    yield table
    if more > 0:
        yield Text(f"and {more} more place{'' if more == 1 else 's'}.\n")


def pairs_in_words(several: int) -> str:
    """So many pairs."""
    return f"{several} pair{'' if several == 1 else 's'}"
