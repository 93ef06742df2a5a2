"""Whether the figures of one entry agree with each other."""

from collections.abc import Iterator

from catalog.adapters import AdapterEntry
from catalog.brakes import BrakeEntry
from catalog.fields import Entry
from catalog.frames import FrameEntry, GuideEntry
from catalog.lines import LineEntry
from catalog.mechanic_errors import Complaint, did_you_mean
from catalog.methods import LeaderLineEntry, SleeveTubeEntry, ThreadedCouplerEntry
from catalog.mount_checks import adapter_complaints, brake_complaints, mount_complaints, not_below
from catalog.openings import BoxOpeningEntry, OpeningEntry, OutlineOpeningEntry, RoundOpeningEntry
from catalog.shop import ShopEntry
from catalog.work_steps import CautionEntry, StepEntry
from catalog.yaml_text import Path
from planner.parts import Fact, Placeholder


def entry_complaints(entry: Entry) -> Iterator[Complaint]:
    """What one accepted entry says against itself."""
    if isinstance(entry, LineEntry | SleeveTubeEntry):
        yield from _narrower(("bore",), entry.bore, entry.outer)
    elif isinstance(entry, ThreadedCouplerEntry):
        if entry.collar < entry.stud:
            yield ("collar",), f"{entry.collar:g} mm was given", f"at least the stud, {entry.stud:g} mm, is allowed"
    elif isinstance(entry, LeaderLineEntry):
        if entry.joint_outer < entry.outer:
            given = f"{entry.joint_outer:g} mm was given"
            yield ("joint_outer",), given, f"the widest part: at least outer, {entry.outer:g} mm, is allowed"
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
        for field, sentence in (("text", entry.text), ("why", entry.why)):
            yield from _placeholder_complaints((field,), sentence)
    elif isinstance(entry, CautionEntry):
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
    if isinstance(opening, BoxOpeningEntry):
        most = min(opening.length, opening.width) / 2
        if opening.corner_radius > most:
            given = f"{opening.corner_radius:g} mm was given"
            yield (*path, "corner_radius"), given, f"at most half the smaller side, {most:g} mm, is allowed"
    elif isinstance(opening, OutlineOpeningEntry):
        if crossing := _crossing_sides(opening.points):
            given = f"the sides after points no. {crossing[0] + 1} and no. {crossing[1] + 1} meet"
            yield (*path, "points"), given, "an outline that goes around once without crossing itself"
        elif _area_mm2(opening.points) < 0.5:
            yield (*path, "points"), "an outline without area was given", "corners in order around the hole"
    if opening.tolerance is not None and 2 * opening.tolerance >= min(extent_mm(opening)):
        given = f"{opening.tolerance:g} mm was given"
        yield (*path, "tolerance"), given, f"less than half of the hole, {min(extent_mm(opening)) / 2:g} mm, is allowed"


def guide_complaints(guide: GuideEntry, path: Path) -> Iterator[Complaint]:
    """What a guide says against itself."""
    if guide.turn > 0 and guide.bend_radius is None:
        given = f"nothing was given for a turn of {guide.turn:g} degrees"
        yield (*path, "bend_radius"), given, "a bend radius, or turn: 0 for a straight guide"


def extent_mm(opening: OpeningEntry) -> tuple[float, float]:
    """Length and width over everything."""
    if isinstance(opening, RoundOpeningEntry):
        return opening.diameter, opening.diameter
    if isinstance(opening, OutlineOpeningEntry):
        xs, ys = zip(*opening.points, strict=True)
        return max(xs) - min(xs), max(ys) - min(ys)
    return opening.length, opening.width


def _narrower(path: Path, bore_mm: float | None, outer_mm: float) -> Iterator[Complaint]:
    if bore_mm is not None and bore_mm >= outer_mm:
        yield path, f"{bore_mm:g} mm was given", f"less than outer, {outer_mm:g} mm, is allowed"


def _fact_complaints(entry: StepEntry | CautionEntry) -> Iterator[Complaint]:
    for field in ("when", "unless"):
        facts: tuple[str, ...] = getattr(entry, field)
        for place, fact in enumerate(facts):
            if fact not in [*Fact]:
                yield (field, place), f"'{fact}' was given", did_you_mean(fact, Fact)


def _placeholder_complaints(path: Path, sentence: str) -> Iterator[Complaint]:
    for word in placeholders_in(sentence):
        if word not in [*Placeholder]:
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


def _area_mm2(points: tuple[tuple[float, float], ...]) -> float:
    around = zip(points, (*points[1:], points[0]), strict=True)
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in around)) / 2


def _crossing_sides(points: tuple[tuple[float, float], ...]) -> tuple[int, int] | None:
    """The first two sides that meet although they are not neighbours."""
    sides = list(zip(points, (*points[1:], points[0]), strict=True))
    for first, (a, b) in enumerate(sides):
        for second in range(first + 2, len(sides)):
            if first == 0 and second == len(sides) - 1:
                continue
            c, d = sides[second]
            if _side_of(a, b, c) * _side_of(a, b, d) < 0 and _side_of(c, d, a) * _side_of(c, d, b) < 0:
                return first, second
    return None


def _side_of(a: tuple[float, float], b: tuple[float, float], p: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
