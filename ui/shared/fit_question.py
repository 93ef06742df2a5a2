"""The quick question whether things pass a hole side by side: what is asked, what is wrong with it, the answer."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import isfinite

from catalog import Catalog, Spread, spread_of
from planner import (
    Wedge,
    allowance_of,
    check_of_wedge,
    check_things_in_room,
    find_hole_seen,
    sentence_for,
    wedge_in,
)
from planner.parts import OUTSIDE, Opening, Port
from planner.rules import GAUGED, SPREAD, PlaceRule
from planner.verdicts import Check, Outcome, Room, State, Thing, ThingKind
from ui.shared.opening_text import OpeningNotUnderstood, holds_a_range, read_opening

QUICK_VERDICTS = {
    Outcome.FITS: "It passes",
    Outcome.TIGHT: "It passes, but it is tight",
    Outcome.UNKNOWN: "Not proven: measure",
    Outcome.NO_FIT: "It does not pass",
}
"""The answer in few words, by its outcome."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FitQuestion:
    """What was typed, numbers as given; None where the shop's own figure is meant or nothing is asked.

    Tilt, wall and bore may be ranges.

    joint : a joint that goes first, in place of a typed diameter
    smallest_text : the kind of hole whose smallest is sought
    asks_largest : whether the thickest thing beside the others is sought
    """

    opening_text: str
    item_diameters_mm: tuple[float, ...]
    tilt_deg: float
    wall_thickness_mm: float
    tolerance_mm: float | None
    item_tolerance_mm: float
    rigid_length_mm: float | None
    bore_mm: float | None
    joint: Thing | None = None
    smallest_text: str | None = None
    asks_largest: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class FitAnswer:
    """The answer: whether things lie side by side in the hole, and whether a stiff one dips through it.

    longest_rigid_mm : the longest stiff piece of the first thing's diameter proven to dip through; None if not asked
    wedge : three lines alike that can wedge in a round hole; None where they cannot
    """

    side_by_side: Check
    rigid: Check | None
    longest_rigid_mm: float | None
    wedge: Wedge | None

    @property
    def outcome(self) -> Outcome:
        """The worse of the two."""
        return max(self.side_by_side.outcome, Outcome.FITS if self.rigid is None else self.rigid.outcome)


def quick_sentence(question: FitQuestion, answer: FitAnswer) -> str:
    """The answer first, then what was asked, without a full stop."""
    return f"{QUICK_VERDICTS[answer.outcome]}: {things_in_words(question)} through {question.opening_text} mm"


def doubt_sentence(check: Check) -> str:
    """What is to be measured where a gauge or a range leaves it open; "" where neither does."""
    return _DOUBTS.get(check.proof, "")


_DOUBTS = {
    GAUGED: "only what went in is sure of this hole: measure it",
    SPREAD: "it passes only where the line leans little and the wall is thin: measure both",
}


def wedge_sentence(wedge: Wedge) -> str:
    """That three lines alike can wedge, with the figure."""
    words = sentence_for(check_of_wedge(wedge))
    return f"{words[:1].upper()}{words[1:]}."


def things_in_words(question: FitQuestion) -> str:
    """What is to pass, by its diameters."""
    sizes = [f"{diameter_mm:g}" for diameter_mm in question.item_diameters_mm]
    if question.joint is not None:
        sizes.insert(0, f"joint {question.joint.diameter_mm:.2f}")
    return f"{' + '.join(sizes)} mm"


def find_problems(question: FitQuestion, catalog: Catalog, *, has_joint: bool = False) -> Iterator[str]:
    """Everything that is wrong with the question, one sentence each."""
    if question.smallest_text is None and not question.opening_text:
        yield "fit > opening: none was given, allowed: --opening HOLE, or --smallest KIND to be told the smallest"
    elif question.smallest_text is None:
        try:
            opening_of_question(question, catalog)
        except OpeningNotUnderstood as refusal:
            yield f"fit > opening: {refusal}"
    if not things_of_question(question) and not question.asks_largest and not has_joint:
        yield "fit > item: none was given, allowed: --item DIAMETER once for each thing, or --joint METHOD --line LINE"
    for diameter_mm in question.item_diameters_mm:
        yield from _out_of_range("item", diameter_mm, "mm", above=0, below=1000)
    yield from _out_of_range("tilt", question.tilt_deg, "degrees", least=0, below=90)
    yield from _out_of_range("wall", question.wall_thickness_mm, "mm", least=0, below=1000)
    yield from _out_of_range("tolerance", question.tolerance_mm, "mm", least=0, below=1000)
    if question.tolerance_mm is not None and holds_a_range(question.opening_text):
        yield "fit > tolerance: given beside a range, allowed: the range alone, or one number with its tolerance"
    yield from _out_of_range("item-tolerance", question.item_tolerance_mm, "mm", least=0, below=1000)
    yield from _out_of_range("rigid", question.rigid_length_mm, "mm", above=0, below=10000)
    yield from _out_of_range("bore", question.bore_mm, "mm", above=0, below=10000)
    if (question.rigid_length_mm is None) != (question.bore_mm is None):
        given = "rigid" if question.bore_mm is None else "bore"
        yield f"fit > {given}: given alone, allowed: --rigid LENGTH together with --bore H, both in mm"


def _out_of_range(
    name: str, value: float | None, unit: str, *, below: float, above: float | None = None, least: float | None = None
) -> Iterator[str]:
    if isinstance(value, Spread):
        for end in (value.low, value.high):
            yield from _out_of_range(name, end, unit, below=below, above=above, least=least)
        return
    if value is None:
        return
    if (
        not isfinite(value)
        or value >= below
        or (above is not None and value <= above)
        or (least is not None and value < least)
    ):
        low = f"more than {above:g}" if above is not None else f"{least:g} or more"
        yield f"fit > {name}: {value:g} {unit} was given, allowed: {low} and less than {below:g} {unit}"


def opening_of_question(question: FitQuestion, catalog: Catalog) -> Opening:
    """The hole asked about.

    Raises OpeningNotUnderstood with what was given and what is allowed.
    """
    return read_opening(question.opening_text, tolerance_mm=tolerance_of_question(question, catalog))


def tolerance_of_question(question: FitQuestion, catalog: Catalog) -> float:
    """Plus or minus on the hole's sizes, in mm: as typed, or the shop's."""
    return question.tolerance_mm if question.tolerance_mm is not None else catalog.opening_tolerance_mm


def find_answer(question: FitQuestion, catalog: Catalog) -> FitAnswer:
    """Ask the planner."""
    items, port = things_of_question(question), port_of_question(question, catalog)
    side_by_side = check_things_in_room(
        rule=PlaceRule.PORT_CLEARANCE,
        room=find_hole_seen(port=port, is_insert_out=True),
        things=items,
        running_clearance_mm=catalog.workshop.limits.running_clearance_mm,
        allowance=allowance_of(catalog.workshop.limits),
        state=State.DRAWING,
        port_id=port.id,
    )
    rigid, longest_mm = None, None
    if question.rigid_length_mm is not None:
        from planner import check_rigid_through_wall, find_longest_through_port

        longest = find_longest_through_port(port=port, corridor_mm=question.bore_mm, item=items[0], is_worst_case=False)
        longest_mm = None if longest is None else longest.length_mm
        rigid = check_rigid_through_wall(
            port=port,
            run_id="",
            corridor_mm=None if question.bore_mm is None else float(question.bore_mm),
            corridor_tolerance_mm=spread_of(question.bore_mm),
            item=replace(items[0], rigid_length_mm=question.rigid_length_mm),
            is_entry=True,
            is_insert_out=True,
        )
    wedge = wedge_in(opening=port.opening, diameters_mm=[item.diameter_mm for item in items])
    return FitAnswer(side_by_side=side_by_side, rigid=rigid, longest_rigid_mm=longest_mm, wedge=wedge)


def things_of_question(question: FitQuestion) -> tuple[Thing, ...]:
    """What is to lie side by side in the hole, the thing asked about first."""
    typed = (
        Thing(
            id=f"item-{n}",
            kind=ThingKind.OTHER,
            diameter_mm=diameter_mm,
            tolerance_mm=question.item_tolerance_mm,
        )
        for n, diameter_mm in enumerate(question.item_diameters_mm, start=1)
    )
    return (*typed,) if question.joint is None else (question.joint, *typed)


def port_of_question(question: FitQuestion, catalog: Catalog) -> Port:
    """The hole asked about, as a port in the side of a tube."""
    return Port(
        id="hole",
        label=question.opening_text,
        joins=(OUTSIDE, "tube"),
        position_mm=(0.0, 0.0, 0.0),
        heading=(0.0, 0.0, -1.0),
        opening=opening_of_question(question, catalog),
        tilt_deg=float(question.tilt_deg),
        tilt_tolerance_deg=spread_of(question.tilt_deg),
        wall_thickness_mm=float(question.wall_thickness_mm),
        wall_tolerance_mm=spread_of(question.wall_thickness_mm),
    )


def room_of_question(question: FitQuestion) -> Room:
    """How the line leans and the wall it goes through, both at their worst: what is sought must do there too."""
    tilt, wall = question.tilt_deg, question.wall_thickness_mm
    return Room(
        opening=None,
        tilt_deg=float(tilt),
        tilt_tolerance_deg=spread_of(tilt),
        wall_thickness_mm=float(wall),
        wall_tolerance_mm=spread_of(wall),
    ).at_worst
