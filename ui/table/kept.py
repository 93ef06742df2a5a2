"""A kept table told again: what it comes to, its pairs picked by words and outcome, its rows as they were written."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from catalog import OUTCOME_SIGNS
from planner import Tally, table_rows
from ui.table.kept_words import tally_of
from ui.table.make import Row
from ui.table.plain_text import from_text

if TYPE_CHECKING:
    from catalog import Store, TableBrief, TableLine


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptBrake:
    """A brake of a kept table.

    supplied_mm : length of its line as supplied; None when not measured
    look : which of the looks it has
    """

    id: str
    name: str
    supplied_mm: float | None
    look: int


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptTable:
    """A kept table, without its cases.

    frame_names : by id
    places : what a frame's places are called, by its id
    things : what methods and adapters are called, by id
    refused : id and reason of cases that could not be decided
    """

    brief: "TableBrief"
    brakes: tuple[KeptBrake, ...]
    frame_names: Mapping[str, str]
    places: Mapping[str, Mapping[str, str]]
    things: Mapping[str, str]
    tally: Tally
    refused: tuple[tuple[str, str], ...]

    def place(self, frame_id: str, place_id: str) -> str:
        """What a place of a frame is called."""
        return self.places.get(frame_id, {}).get(place_id, place_id)

    def frame(self, frame_id: str) -> str:
        """What a frame is called."""
        return self.frame_names.get(frame_id, frame_id)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pick:
    """Which pairs are wanted.

    frames, brakes : words that all stand in a name or id; "" for all
    outcomes : words of the outcomes; none for all
    """

    frames: str = ""
    brakes: str = ""
    outcomes: tuple[str, ...] = ()

    @property
    def is_all(self) -> bool:
        """Whether nothing is left out."""
        return not (self.frames.strip() or self.brakes.strip() or self.outcomes)


@dataclass(frozen=True, slots=True, kw_only=True)
class Picked:
    """A case with those of its brakes that were picked, by their places."""

    line: "TableLine"
    brakes: tuple[int, ...]


def read_table(store: "Store", id: int) -> KeptTable:
    """A kept table.

    Raises StoreError where it is not there, or not as it was saved.
    """
    brief, content = store.tables.get(id)
    return KeptTable(
        brief=brief,
        brakes=tuple(
            KeptBrake(id=id, name=name, supplied_mm=supplied_mm, look=look)
            for id, name, supplied_mm, look in content["brakes"]
        ),
        frame_names={id: frame["name"] for id, frame in content["frames"].items()},
        places={id: frame["places"] for id, frame in content["frames"].items()},
        things=content["things"],
        tally=tally_of(content["tally"]),
        refused=tuple((case_id, why) for case_id, why in content["refused"]),
    )


def pick_pairs(store: "Store", table: KeptTable, pick: Pick) -> list[Picked]:
    """The pairs wanted, case by case in the table's order; no answer is read for it."""
    words = pick.brakes.lower().split()
    wanted = [
        place
        for place, brake in enumerate(table.brakes)
        if all(word in f"{brake.name} {brake.id}".lower() for word in words)
    ]
    signs = {OUTCOME_SIGNS[word] for word in pick.outcomes or OUTCOME_SIGNS}
    found = []
    for line in store.tables.lines(table.brief.id, words=pick.frames):
        places = tuple(place for place in wanted if line.outcomes[place] in signs)
        if places:
            found.append(Picked(line=line, brakes=places))
    return found


def rows_of(store: "Store", table: KeptTable, picked: Sequence[Picked]) -> Iterator[Row]:
    """The rows of some pairs, as the table's file has them."""
    brakes = [(brake.id, brake.supplied_mm) for brake in table.brakes]
    looks = [brake.look for brake in table.brakes]
    answers = store.tables.answers_of([each.line for each in picked])
    for each, text in zip(picked, answers, strict=True):
        line = each.line
        head = (line.case_id, line.frame_id, line.content["from"], line.content["to"])
        rows = list(table_rows(head=head, answers=from_text(text), brakes=brakes, look_of=looks))
        yield from (rows[place] for place in each.brakes)


def job_fields_of(table: KeptTable, line: "TableLine", brake: KeptBrake) -> dict[str, Any]:
    """A pair as the fields of a job file."""
    named = {"id": f"{line.case_id}-{brake.id}", "title": f"{brake.name} on {table.frame(line.frame_id)}"}
    return {**named, **line.content["job"], "new": {"brake": brake.id}}


def first_pairs(picked: Sequence[Picked], most: int) -> list[Picked]:
    """So many pairs from the front."""
    found: list[Picked] = []
    left = most
    for each in picked:
        if left <= 0:
            break
        found.append(Picked(line=each.line, brakes=each.brakes[:left]))
        left -= len(found[-1].brakes)
    return found
