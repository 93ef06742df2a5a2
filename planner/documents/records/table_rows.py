"""The rows of a table, a pair each, as values and as CSV that is safe to open in a spreadsheet."""

from collections.abc import Iterator, Sequence

from planner.documents.words.printable import in_csv
from planner.table.answers import CaseAnswers
from planner.table.decisions import Decision, join_answers

COLUMNS = (
    "case",
    "frame",
    "from",
    "to",
    "brake",
    "outcome",
    "way",
    "parts",
    "method",
    "feed_from",
    "cut_old_at",
    "route",
    "rule",
    "place",
    "clearance_mm",
    "cut_mm",
    "supplied_mm",
    "spare_mm",
    "adapter",
    "missing",
    "asks",
)
"""Case and brake are ids; outcomes, rules and ends the words of the file formats; lists have blanks between."""

NUMBER_COLUMNS = ("clearance_mm", "cut_mm", "supplied_mm", "spare_mm")

Value = str | float | None


def table_rows(
    *,
    head: tuple[str, str, str, str],
    answers: CaseAnswers,
    brakes: Sequence[tuple[str, float | None]],
    look_of: Sequence[int],
) -> Iterator[tuple[Value, ...]]:
    """The rows of one case, a brake each, by `COLUMNS`; what does not apply is None.

    head : ids of the case, of its frame and of the two ends
    brakes : id of each, and the length its line is supplied in; None when not measured [mm]
    look_of : for each brake, which of the looks is its own
    """
    told: dict[tuple[int, int, float | None], tuple[Value, ...]] = {}
    for (brake_id, supplied_mm), look in zip(brakes, look_of, strict=True):
        key = (answers.way_of[look], answers.parts_of[look], supplied_mm)
        row = told.get(key)
        if row is None:
            way, parts = answers.ways[key[0]], answers.parts[key[1]]
            row = told[key] = _told(join_answers(way=way, parts=parts, supplied_mm=key[2]), key[2])
        yield (*head, brake_id, *row)


def _told(decision: Decision, supplied_mm: float | None) -> tuple[Value, ...]:
    way, parts = decision.way, decision.parts
    return (
        decision.outcome.word,
        way.outcome.word,
        None if parts is None else parts.outcome.word,
        way.method_id,
        None if way.feed_from is None else way.feed_from.value,
        None if way.cut_old_at is None else way.cut_old_at.value,
        " ".join(way.route) or None,
        decision.decider.rule or None,
        decision.decider.place_id or None,
        _rounded(decision.decider.clearance_mm),
        _rounded(way.cut_mm),
        _rounded(supplied_mm),
        _rounded(decision.spare_mm),
        None if parts is None else parts.adapter_id,
        " ".join(f"{place}:{rule}" for place, rule in way.missing) or None,
        None if parts is None else " ".join(parts.asks) or None,
    )


def _rounded(size_mm: float | None) -> float | None:
    """Far finer than anybody measures, and the same text on every machine; never a minus before nothing."""
    return None if size_mm is None else round(float(size_mm), 6) + 0.0


def csv_line(row: Sequence[Value]) -> str:
    """A row as a line of CSV; what does not apply is empty.

    Source: RFC 4180, as for `planner.documents.records.parts_csv`.
    """
    return ",".join(map(_cell, row)) + "\r\n"


def _cell(value: Value) -> str:
    if value is None or isinstance(value, float):
        return "" if value is None else repr(value)
    words = in_csv(value)
    return '"' + words.replace('"', '""') + '"' if any(sign in words for sign in ',";\r\n') else words
