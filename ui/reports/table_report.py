"""What a table comes to, in the terminal: outcomes, what stops most, what one measurement would settle."""

from collections import Counter
from collections.abc import Iterator, Mapping
from pathlib import Path

from rich.console import RenderableType
from rich.text import Text

from planner import Tally
from planner.verdicts import Outcome
from ui.reports.plain_table import outcome_text, plain_table
from ui.reports.report import print_report

MOST_PLACES = 10


def print_tally(tally: Tally, *, to: Path) -> None:
    """Print it for people.

    to : where the rows were written
    """
    print_report(*_sections(tally, to))


def _sections(tally: Tally, to: Path) -> Iterator[RenderableType]:
    yield Text(f"{_pairs(tally.pairs_n)} of frame and brake, a row each in {to}.", style="bold")
    outcomes = plain_table(("Outcome", "Pairs"), right=("Pairs",))
    for outcome in Outcome:
        outcomes.add_row(outcome_text(outcome), f"{tally.outcomes[outcome]}")
    yield outcomes
    yield from _places("Where it stops most often", tally.stops, "Pairs stopped")
    if tally.others:
        told = ", ".join(f"{_rule_words(rule)} {several}" for rule, several in tally.others.most_common())
        yield Text(f"A no at no place of the frame: {told}.\n")
    yield from _places("What one measurement would settle", tally.open_by_one, "Pairs kept open")
    if tally.outcomes[Outcome.UNKNOWN]:
        one_n = sum(tally.open_by_one.values())
        yield Text(
            f"Of {_pairs(tally.outcomes[Outcome.UNKNOWN])} not proven, {one_n} wait for one place alone, "
            f"{tally.open_by_more} for several or for something else."
        )


def _places(title: str, counts: Mapping[tuple[str, str], int], heading: str) -> Iterator[RenderableType]:
    if not counts:
        return
    table = plain_table(("Frame", "Place", heading), title=title, right=(heading,))
    for (frame_id, place_id), several in Counter(counts).most_common(MOST_PLACES):
        table.add_row(frame_id, place_id, f"{several}")
    more = len(counts) - MOST_PLACES
    yield table
    if more > 0:
        yield Text(f"and {more} more place{'' if more == 1 else 's'}.\n")


def _rule_words(rule: str) -> str:
    return rule.replace("_", " ") or "nothing was asked"


def _pairs(several: int) -> str:
    return f"{several} pair{'' if several == 1 else 's'}"
