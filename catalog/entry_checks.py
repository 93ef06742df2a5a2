"""Whether the figures of one entry agree with each other."""

from collections.abc import Iterator

from catalog.adapters import AdapterEntry
from catalog.brakes import BrakeEntry
from catalog.fields import Entry
from catalog.frames import FrameEntry, GuideEntry, RunEntry
from catalog.lines import LineEntry
from catalog.mechanic_errors import Complaint, did_you_mean
from catalog.methods import AnyMethodEntry
from catalog.mount_checks import adapter_complaints, brake_complaints, mount_complaints, not_below
from catalog.openings import OpeningEntry, spread_of_opening_mm
from catalog.shop import ShopEntry
from catalog.size_checks import narrower
from catalog.spreads import spread_of
from catalog.work_steps import AtHandEntry, CautionEntry, RescueEntry, StepEntry
from catalog.yaml_text import Path
from planner.parts import Fact, Placeholder

_FACTS, _PLACEHOLDERS = frozenset(Fact), frozenset(Placeholder)


def entry_complaints(entry: Entry) -> Iterator[Complaint]:
    """What one accepted entry says against itself."""
    if isinstance(entry, LineEntry):
        yield from narrower(("bore",), entry.bore, entry.outer)
        if entry.bore is not None:
            yield from narrower(("cable",), entry.cable, entry.bore, of="bore")
    elif isinstance(entry, AnyMethodEntry):
        yield from entry.complaints()
    elif isinstance(entry, AdapterEntry):
        yield from adapter_complaints(entry)
    elif isinstance(entry, BrakeEntry):
        yield from brake_complaints(entry)
    elif isinstance(entry, ShopEntry):
        low, high = entry.stud_squeeze_min, entry.stud_squeeze_max
        yield from not_below(("stud_squeeze_max",), high, "stud_squeeze_min", low)
        yield from _row_complaints(entry.hose_cut_tolerances or ())
    elif isinstance(entry, StepEntry):
        yield from _fact_complaints(entry)
        for field, sentence in (
            ("text", entry.text),
            ("why", entry.why),
            ("short", entry.short),
            ("tightens", entry.tightens),
        ):
            yield from _placeholder_complaints((field,), sentence or "")
    elif isinstance(entry, CautionEntry):
        yield from _fact_complaints(entry)
        for field, sentence in (("text", entry.text), ("short", entry.short or "")):
            yield from _placeholder_complaints((field,), sentence)
    elif isinstance(entry, RescueEntry | AtHandEntry):
        yield from _fact_complaints(entry)
        yield from _placeholder_complaints(("text",), entry.text)
    elif isinstance(entry, FrameEntry):
        for end, mount in (("front", entry.brakes.front), ("rear", entry.brakes.rear)):
            if mount is not None:
                yield from mount_complaints(mount, ("brakes", end))


def _row_complaints(rows: tuple[tuple[float, float], ...]) -> Iterator[Complaint]:
    for place in range(1, len(rows)):
        before, up_to = rows[place - 1][0], rows[place][0]
        if up_to <= before:
            allowed = f"more than the row before, {before:g} mm, is allowed"
            yield ("hose_cut_tolerances", place, 0), f"{up_to:g} mm was given", allowed


def opening_complaints(opening: OpeningEntry, path: Path) -> Iterator[Complaint]:
    """What an opening says against itself."""
    for inside, given, allowed in opening.complaints():
        yield (*path, *inside), given, allowed
    most_mm, half_mm = min(opening.extent_mm) / 2, spread_of_opening_mm(opening)
    yield from _told_twice(opening.tolerance, half_mm, (*path, "tolerance"))
    if half_mm >= most_mm:
        yield path, f"a range of ±{half_mm:g} mm was given", f"less than half of the hole, {most_mm:g} mm, is allowed"
    if opening.tolerance is not None and opening.tolerance >= most_mm:
        given = f"{opening.tolerance:g} mm was given"
        yield (*path, "tolerance"), given, f"less than half of the hole, {most_mm:g} mm, is allowed"


def run_complaints(run: RunEntry, path: Path) -> Iterator[Complaint]:
    """What a run's own length says against itself."""
    yield from _told_twice(run.length_tolerance, spread_of(run.length), (*path, "length_tolerance"))
    if run.length is None and run.length_tolerance is not None:
        yield (*path, "length_tolerance"), "length_tolerance was given without length", "both, or neither"
    if run.length is None and run.reached:
        yield (*path, "reached"), "reached was given without length", "both, or neither"


def _told_twice(tolerance: float | None, half: float, path: Path) -> Iterator[Complaint]:
    if tolerance is not None and half:
        given = f"{tolerance:g} mm was given beside a range of ±{half:g} mm"
        yield path, given, "the range alone, or one number with its tolerance"


def guide_complaints(guide: GuideEntry, path: Path) -> Iterator[Complaint]:
    """What a guide says against itself."""
    yield from _told_twice(guide.tolerance, spread_of(guide.bore), (*path, "tolerance"))
    if guide.turn > 0 and guide.bend_radius is None:
        given = f"nothing was given for a turn of {guide.turn:g} degrees"
        yield (*path, "bend_radius"), given, "a bend radius, or turn: 0 for a straight guide"


def _fact_complaints(entry: StepEntry | CautionEntry | RescueEntry | AtHandEntry) -> Iterator[Complaint]:
    for field in ("when", "when_any", "unless"):
        facts: tuple[str, ...] = getattr(entry, field)
        for place, fact in enumerate(facts):
            if fact not in _FACTS:
                yield (field, place), f"'{fact}' was given", did_you_mean(fact, Fact)


def _placeholder_complaints(path: Path, sentence: str) -> Iterator[Complaint]:
    for word in placeholders_in(sentence):
        if word not in _PLACEHOLDERS:
            yield path, f"the placeholder {{{word}}} was given", did_you_mean(word, Placeholder)


def placeholders_in(sentence: str) -> Iterator[str]:
    """The words between braces; a brace without its fellow counts as a placeholder without a name."""
    rest = sentence
    while "{" in rest or "}" in rest:
        opened, closed = rest.find("{"), rest.find("}")
        if opened < 0 or closed < opened:
            yield ""
            return
        yield rest[opened + 1 : closed]
        rest = rest[closed + 1 :]
