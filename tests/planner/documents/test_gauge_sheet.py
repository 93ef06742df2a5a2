"""The paper gauge: true to size on paper, and a plug that goes in proves that the hole will do."""

import subprocess
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from PIL import Image

from planner.documents.drawings.gauge_drawing import RULER_MM, draw_hole_gauge, draw_jaws, draw_ruler, least_opening
from planner.documents.paper.gauge_sheet import gauge_sheet_pdf
from planner.documents.paper.pages import pages_as_pdf
from planner.documents.paper.parts import picture
from planner.errors import ImpossibleDimensionError
from planner.fit.hole_fit import check_things_in_room
from planner.parts import BoxOpening, Measure, Measured, Opening, OvalOpening, RoundOpening, SlotOpening
from planner.rules import PlaceRule
from planner.verdicts import Check, Outcome, Room, Thing, ThingKind
from tests.planner.documents.drawing_samples import make_frame, make_plan
from tests.planner.documents.paper_reading import text_of

PAPER = Measure(id="paper", of=Measured.PAPER, tool="print", give_or_take=0.2, hint="")
SIZES = st.floats(3, 20).map(lambda size: round(size, 2))
OPENINGS: st.SearchStrategy[Opening] = st.one_of(
    st.builds(RoundOpening, diameter_mm=SIZES, tolerance_mm=st.sampled_from([0, 0.1])),
    st.builds(SlotOpening, length_mm=SIZES.map(lambda size: size + 17), width_mm=SIZES, tolerance_mm=st.just(0.1)),
    st.builds(OvalOpening, length_mm=SIZES.map(lambda size: size + 17), width_mm=SIZES, tolerance_mm=st.just(0.1)),
    st.builds(
        BoxOpening,
        length_mm=SIZES.map(lambda size: size + 17),
        width_mm=SIZES,
        corner_radius_mm=st.sampled_from([0, 0.5, 1.5]),
        tolerance_mm=st.just(0.1),
    ),
)


def line(diameter_mm: float, name: str = "line") -> Thing:
    return Thing(id=name, kind=ThingKind.LINE, diameter_mm=diameter_mm, tolerance_mm=0.1)


def check_of(opening: Opening | None, *diameters_mm: float) -> Check:
    return check_in(Room(opening=opening, tilt_deg=10, wall_thickness_mm=1.5), *diameters_mm)


def check_in(room: Room, *diameters_mm: float) -> Check:
    things = [line(size, f"line-{place}") for place, size in enumerate(diameters_mm)]
    return check_things_in_room(rule=PlaceRule.PORT_CLEARANCE, room=room, things=things, running_clearance_mm=0.2)


def exact(opening: Opening) -> Opening:
    return replace(opening, tolerance_mm=0)


@given(opening=OPENINGS, first_mm=st.floats(2, 6), second_mm=st.floats(2, 6))
def test_what_passes_the_hole_passes_the_plug_s_hole_at_its_worst(
    opening: Opening, first_mm: float, second_mm: float
) -> None:
    check = check_of(opening, first_mm, second_mm)
    assume(check.worst_clearance_mm is not None and check.worst_clearance_mm >= 0.05)
    least = least_opening(check)
    assert least is not None
    again = check_of(exact(least), first_mm, second_mm)
    assert again.worst_clearance_mm is not None
    assert again.worst_clearance_mm >= -1e-6


@given(diameter_mm=st.floats(5.5, 20), line_mm=st.floats(3, 5))
def test_for_one_thing_square_in_a_round_hole_nothing_smaller_does(diameter_mm: float, line_mm: float) -> None:
    check = check_in(Room(opening=RoundOpening(diameter_mm=diameter_mm, tolerance_mm=0.1)), line_mm)
    least = least_opening(check)
    assert isinstance(least, RoundOpening)
    smaller = check_in(Room(opening=RoundOpening(diameter_mm=least.diameter_mm - 0.011, tolerance_mm=0)), line_mm)
    assert smaller.worst_clearance_mm is not None
    assert smaller.worst_clearance_mm < 0


def test_one_thing_too_thick_gets_the_hole_that_it_would_need() -> None:
    """5.0 +- 0.1 square on in a round 4.9: a hole of 5.1 and nothing less takes it at its worst."""
    check = check_in(Room(opening=RoundOpening(diameter_mm=4.9, tolerance_mm=0.1)), 5.0)
    least = least_opening(check)
    assert isinstance(least, RoundOpening)
    assert least.diameter_mm == pytest.approx(5.1, abs=1e-9)


def test_several_things_that_lack_room_get_no_plug() -> None:
    check = check_of(RoundOpening(diameter_mm=9, tolerance_mm=0.1), 5, 5)
    assert (check.worst_clearance_mm or 0) < 0
    assert least_opening(check) is None


def test_a_hole_that_nobody_measured_gets_no_plug() -> None:
    check = check_of(None, 5)
    assert check.outcome is Outcome.UNKNOWN
    assert least_opening(check) is None
    with pytest.raises(ValueError, match="no size to draw"):
        draw_hole_gauge(check, label="neck", width_mm=80, paper_error_mm=0.2)


@pytest.mark.parametrize(("hole_mm", "is_told"), [(5.39, True), (5.41, False)])
def test_a_hole_too_close_for_paper_says_so(hole_mm: float, is_told: bool) -> None:
    """5.0 +- 0.1 in a hole +- 0.1 has 0.19 or 0.21 to spare at its worst; a paper plug is good to 0.2."""
    check = check_in(Room(opening=RoundOpening(diameter_mm=hole_mm, tolerance_mm=0.1)), 5.0)
    drawn = draw_hole_gauge(check, label="neck", width_mm=80, paper_error_mm=0.2)
    assert ("too close for" in drawn.svg) is is_told


def test_the_ruler_is_a_hundred_millimetres_long_on_paper(tmp_path: Path) -> None:
    """Printed with poppler at 254 dots an inch, which is ten a millimetre, and counted in dots."""
    ruler = draw_ruler(width_mm=180)
    paper = pages_as_pdf(picture(ruler, width_mm=180, height_mm=30), page_size="a4", title="ruler", foot="ruler")
    file = tmp_path / "ruler.pdf"
    file.write_bytes(paper)
    subprocess.run(["pdftoppm", "-r", "254", "-gray", "-png", "-singlefile", file, tmp_path / "ruler"], check=True)
    dark = Image.open(tmp_path / "ruler.png").convert("L").point(lambda level: 255 * (level < 128))
    rows = (dark.crop((0, y, dark.width, y + 1)) for y in range(dark.height // 2))
    longest = max(row.histogram()[255] for row in rows)
    assert longest == pytest.approx(10 * RULER_MM, abs=4)  # with half a line's width, 0.75 dots, at both ends


def test_jaws_are_as_wide_as_the_thing_at_its_thickest() -> None:
    drawn = draw_jaws(replace(line(5.2), rigid_length_mm=21), label="joint", width_mm=180)
    assert "at most 5.30 mm across" in drawn.svg
    assert "M4 9 L34 9" in drawn.svg
    assert "M4 14.3 L34 14.3" in drawn.svg
    assert "stiff over 21 mm" in drawn.svg


def test_the_sheet_has_every_hole_of_the_plan_and_the_joint() -> None:
    plan, frame = make_plan(), make_frame()
    printed = gauge_sheet_pdf(plan=plan, frame=frame, measures=(PAPER,), date_text="2031-03-14")
    told = text_of(printed)
    for words in ("100 mm: lay a real ruler on it", "Chainstay, rear left", "must go in", "as told: round 6.5 mm"):
        assert words in told
    assert printed == gauge_sheet_pdf(plan=plan, frame=frame, measures=(PAPER,), date_text="2031-03-14")


def test_a_hole_with_no_room_left_for_its_tolerance_is_refused() -> None:
    check = replace(check_of(RoundOpening(diameter_mm=9, tolerance_mm=0.1), 5), worst_clearance_mm=0.0)
    bad = replace(check, room=Room(opening=RoundOpening(diameter_mm=0.1, tolerance_mm=0.2)))
    with pytest.raises(ImpossibleDimensionError):
        least_opening(bad)
