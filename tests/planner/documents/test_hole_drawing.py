"""The picture of a hole: true to scale, with the proven placement and its gaps."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.documents.drawings.hole_drawing import ENLARGEMENTS, draw_hole, opening_words
from planner.documents.drawings.hole_outline import find_gaps, find_rims
from planner.fit.hole_fit import check_things_in_room
from planner.fit.port_fit import check_things_through_port
from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, Port, RoundOpening, SlotOpening
from planner.rules import PlaceRule
from planner.verdicts import Check, FitClass, Outcome, Placement, Room, State, Thing, ThingKind
from tests.planner.documents.drawing_samples import make_frame

SVG = "{http://www.w3.org/2000/svg}"
NECK, BELLY = make_frame().ports["neck-left"], make_frame().ports["belly-left"]
JOINT = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=5.23, tolerance_mm=0.05)
GEAR = Thing(id="gear-40", kind=ThingKind.LINE, diameter_mm=4.0, tolerance_mm=0.05)


def _check(port: Port, *things: Thing, is_insert_out: bool = True, state: State = State.DRAWING) -> Check:
    return check_things_through_port(
        port=port,
        state=state,
        things=things,
        is_insert_out=is_insert_out,
        running_clearance_mm=0.2,
    )


def _words(svg: str) -> list[str]:
    return [node.text or "" for node in ET.fromstring(svg).iter(f"{SVG}text")]


def _discs_mm(svg: str, letter: str) -> list[float]:
    groups = [node for node in ET.fromstring(svg).iter(f"{SVG}g") if node.get("data-name") == letter]
    return [2 * float(next(group.iter(f"{SVG}circle")).get("r", "0")) for group in groups]


def _seen(opening: Opening, tilt_deg: float, wall_mm: float) -> Room:
    return Room(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_mm)


def test_every_thing_is_drawn_enlarged_and_at_true_size() -> None:
    svg = draw_hole(_check(NECK, JOINT, GEAR)).svg
    (told,) = [words for words in _words(svg) if words.startswith("Enlarged")]
    scale = float(told.removeprefix("Enlarged ").removesuffix(":1"))
    assert scale in ENLARGEMENTS
    assert _discs_mm(svg, "A") == pytest.approx([5.23 * scale, 5.23], abs=0.02)
    assert _discs_mm(svg, "B") == pytest.approx([4.0 * scale, 4.0], abs=0.02)


def test_the_gaps_between_hole_joint_and_housing_share_out_the_clearance() -> None:
    """Two things grown by the clearance touch each other and the edge, so each edge gap is half of it."""
    check = _check(NECK, JOINT, GEAR)
    assert check.placement is not None
    assert check.clearance_mm is not None
    rims = find_rims(_seen(NECK.opening, 50, 1.6), NECK.opening)  # type: ignore[arg-type]
    first, second, between = find_gaps(check.placement, rims.seen)
    assert first.size_mm == pytest.approx(check.clearance_mm / 2, abs=0.01)
    assert second.size_mm == pytest.approx(check.clearance_mm / 2, abs=0.01)
    assert between.size_mm == pytest.approx(check.clearance_mm, abs=0.01)


def test_gaps_and_clearance_are_written_with_their_unit() -> None:
    words = _words(draw_hole(_check(NECK, JOINT, GEAR), names={"gear-40": "Gear housing"}).svg)
    assert words.count("0.44 mm") == 2
    assert "0.88 mm" in words
    assert "Clearance 0.88 mm, 0.80 mm at worst" in words
    assert "B: Gear housing, 4.00 mm" in words


def test_two_rims_are_drawn_where_the_line_leans_and_one_where_it_does_not() -> None:
    leaning = find_rims(_seen(BELLY.opening, 10, 1.6), BELLY.opening)  # type: ignore[arg-type]
    straight = find_rims(_seen(BELLY.opening, 0, 1.6), BELLY.opening)  # type: ignore[arg-type]
    assert leaning.near != leaning.far
    assert straight.near == straight.far


@pytest.mark.parametrize(("width", "wall", "tilt", "seen"), [(8, 1.5, 30, 6.178203), (10, 2, 60, 3.267949)])
def test_the_drawn_opening_is_as_narrow_as_the_formula_says(
    width: float, wall: float, tilt: float, seen: float
) -> None:
    """w*cos(tilt) - t*sin(tilt), worked by hand for a round hole."""
    opening = RoundOpening(diameter_mm=width, tolerance_mm=0)
    xs = [x for x, _ in find_rims(_seen(opening, tilt, wall), opening).seen]
    assert max(xs) - min(xs) == pytest.approx(seen, abs=0.01)


@given(
    length=st.floats(4, 30),
    width=st.floats(4, 12),
    tilt=st.floats(0, 60),
    wall=st.floats(0.5, 4),
    diameter=st.floats(1, 12),
)
@settings(max_examples=40, deadline=None)
def test_the_smallest_gap_of_one_thing_is_half_the_clearance(
    length: float, width: float, tilt: float, wall: float, diameter: float
) -> None:
    opening = OvalOpening(length_mm=length, width_mm=width, tolerance_mm=0)
    fit = check_things_in_room(
        rule=PlaceRule.PORT_CLEARANCE,
        room=_seen(opening, tilt, wall),
        things=[Thing(id="a", kind=ThingKind.LINE, diameter_mm=diameter, tolerance_mm=0)],
        running_clearance_mm=0,
    )
    rims = find_rims(_seen(opening, tilt, wall), opening)
    if fit.placement is not None and fit.clearance_mm is not None and rims.seen:
        (gap,) = find_gaps(fit.placement, rims.seen)
        assert gap.size_mm == pytest.approx(fit.clearance_mm / 2, abs=0.02)


def test_an_overlap_is_written_as_less_than_nothing() -> None:
    too_big = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=6.71, tolerance_mm=0.05)
    svg = draw_hole(_check(BELLY, too_big)).svg
    assert any(re.fullmatch(r"-0\.0\d mm", words) for words in _words(svg))
    assert _check(BELLY, too_big).outcome is Outcome.NO_FIT


def test_the_insert_is_drawn_where_it_is_in_and_said_to_be_out_where_it_is_out() -> None:
    out = " ".join(_words(draw_hole(_check(NECK, JOINT)).svg))
    hose = Thing(id="hose", kind=ThingKind.LINE, diameter_mm=5.0, tolerance_mm=0.05)
    riding = " ".join(_words(draw_hole(_check(NECK, hose, is_insert_out=False, state=State.RIDING)).svg))
    assert "insert out" in out
    assert "Hole: slot 19 × 7 mm" in out
    assert "insert in place" in riding
    assert "Insert: slot 10.2 × 5.4 mm" in riding


def test_a_hole_nobody_measured_says_so() -> None:
    port = replace(BELLY, opening=None)
    assert "Nobody has measured this hole yet." in _words(draw_hole(_check(port, JOINT)).svg)


def test_without_a_proven_placement_nothing_is_drawn_in_the_hole() -> None:
    check = replace(_check(NECK, JOINT, GEAR), placement=None, outcome=Outcome.UNKNOWN)
    svg = draw_hole(check).svg
    assert _discs_mm(svg, "A") == []
    assert "nothing is" in " ".join(_words(svg))


def test_tilt_and_wall_are_told_with_their_units() -> None:
    told = " ".join(_words(draw_hole(_check(NECK, JOINT)).svg))
    assert "leans 50°" in told
    assert "wall 1.6 mm" in told


@pytest.mark.parametrize(
    ("opening", "words"),
    [
        (RoundOpening(diameter_mm=7, tolerance_mm=0.1), "round 7 mm, ±0.1 mm"),
        (SlotOpening(length_mm=19, width_mm=7, tolerance_mm=0.1), "slot 19 × 7 mm, ±0.1 mm"),
        (OvalOpening(length_mm=9, width_mm=7, tolerance_mm=0.1), "oval 9 × 7 mm, ±0.1 mm"),
        (
            BoxOpening(length_mm=9, width_mm=7, corner_radius_mm=1, tolerance_mm=0.1),
            "box 9 × 7 mm, corners 1 mm, ±0.1 mm",
        ),
        (OutlineOpening(points_mm=((0, 0), (9, 0), (4, 8)), tolerance_mm=0.1), "outline of 3 points, ±0.1 mm"),
    ],
    ids=["round", "slot", "oval", "box", "outline"],
)
def test_every_shape_can_be_drawn_and_named(opening: Opening, words: str) -> None:
    port = replace(BELLY, opening=opening)
    thing = Thing(id="a", kind=ThingKind.LINE, diameter_mm=3, tolerance_mm=0)
    told = " ".join(_words(draw_hole(_check(port, thing)).svg))
    assert opening_words(opening) == words
    assert f"Hole: {words}" in told


@pytest.mark.parametrize("width_mm", [90, 60])
def test_a_wide_hole_still_stays_on_its_paper(width_mm: float) -> None:
    port = replace(BELLY, opening=SlotOpening(length_mm=120, width_mm=20, tolerance_mm=0.1))
    svg = draw_hole(_check(port, JOINT), width_mm=width_mm).svg
    assert "Too wide for this paper at true size." in " ".join(_words(svg))
    for node in ET.fromstring(svg).iter(f"{SVG}circle"):
        assert 0 <= float(node.get("cx", "0")) <= width_mm


def test_the_same_check_gives_the_same_bytes_and_escapes_names() -> None:
    check = _check(NECK, JOINT, GEAR)
    names = {"gear-40": "<i>gear</i>"}
    assert draw_hole(check, names=names).svg == draw_hole(check, names=names).svg
    assert "<i>" not in draw_hole(check, names=names).svg


def test_a_placement_made_by_hand_is_drawn_as_it_stands() -> None:
    check = Check(
        rule=PlaceRule.PORT_CLEARANCE,
        outcome=Outcome.FITS,
        state=State.DRAWING,
        thing=replace(JOINT, diameter_mm=2.0),
        room=Room(opening=BELLY.opening),
        size_mm=2.0,
        clearance_mm=1.0,
        fit_class=FitClass.CLEARANCE,
        placement=Placement(centres_mm=((0.0, 0.0), (2.5, 0.0)), diameters_mm=(2.0, 2.0)),
        with_ids=("other",),
    )
    assert "0.50 mm" in _words(draw_hole(check).svg)
