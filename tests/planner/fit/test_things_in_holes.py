"""What a check of a hole costs, what it says where the work runs out, and which class of fit it has at each limit."""

from dataclasses import replace

import pytest

from planner.fit.hole_fit import check_things_in_room
from planner.fit.things import thing_of_fitting, thing_of_line
from planner.geometry.openings.opening_shape import vary_opening
from planner.geometry.packing.set_clearance import Variant, find_set_clearance, find_varied_clearances
from planner.geometry.packing.work import MOST_WORK, ROWS_OF_A_QUESTION, Allowance
from planner.parts import BoxOpening, Opening, OutlineOpening, RoundOpening, SlotOpening
from planner.rules import GAUGED, PLAN_WORK_RAN_OUT, SPREAD, WORK_RAN_OUT, PlaceRule
from planner.verdicts import Check, FitClass, Outcome, Room, State, Thing, ThingKind
from tests.builders import make_line
from tests.planner.fit.compatibility_samples import make_fitting


def asked(
    opening: Opening | None, *sizes_mm: float, allowance: Allowance | None = None, proves_no: bool = True, **room: float
) -> Check:
    """Things of such sizes, each plus or minus 0.05, of which 0.2 is to be left."""
    return check_things_in_room(
        rule=PlaceRule.PORT_CLEARANCE,
        room=Room(opening=opening, **room),  # type: ignore[arg-type]
        things=tuple(
            Thing(id=f"t{n}", kind=ThingKind.LINE, diameter_mm=size, tolerance_mm=0.05)
            for n, size in enumerate(sizes_mm)
        ),
        running_clearance_mm=0.2,
        allowance=allowance,
        proves_no=proves_no,
        state=State.RIDING,
        port_id="hole",
        run_id="run",
    )


ROUND = RoundOpening(diameter_mm=7.0, tolerance_mm=0.1)
CROWDED = BoxOpening(length_mm=10.4, width_mm=7.6, corner_radius_mm=1.0, tolerance_mm=0.1)
"""Three things of 5.0, 4.6 and 4.0 do not go in, and that takes a search to prove."""


def test_an_answer_carries_what_was_asked_and_where() -> None:
    for opening in (ROUND, None):
        check = asked(opening, 3.0, 2.0)
        assert (check.state, check.port_id, check.run_id) == (State.RIDING, "hole", "run")
        assert check.thing is not None
        assert (check.thing.id, check.size_mm, check.with_ids) == ("t0", 3.0, ("t1",))
        assert check.room == Room(opening=opening)


def test_a_question_costs_the_same_whatever_is_remembered_and_nothing_when_it_is_asked_again() -> None:
    first, second = Allowance(), Allowance()
    asked(CROWDED, 5.0, 4.6, 4.0, allowance=first)
    asked(CROWDED, 5.0, 4.6, 4.0, allowance=second)
    assert first.spent_rows == second.spent_rows > ROWS_OF_A_QUESTION
    asked(CROWDED, 5.0, 4.6, 4.0, allowance=first)
    assert first.spent_rows == second.spent_rows


def rows_of(opening: Opening, *, tilt_deg: float = 0.0, tilt_tolerance_deg: float = 0.0) -> int:
    """What asking whether three things pass costs beside being a question."""
    allowance, place = Allowance(), {"tilt_deg": tilt_deg, "tilt_tolerance_deg": tilt_tolerance_deg}
    asked(opening, *SIZES_MM, allowance=allowance, **place)
    return allowance.spent_rows - ROWS_OF_A_QUESTION


SIZES_MM = (5.0, 4.6, 4.0)
TRACED = OutlineOpening(points_mm=((-5.0, -3.7), (0.0, -3.6), (5.0, -3.7), (5.0, 3.7), (-5.0, 3.7)), tolerance_mm=0.1)
"""About the crowded box, of which every corner is looked at."""


def test_where_a_tilt_may_be_off_a_hole_is_looked_at_three_times() -> None:
    wide = replace(CROWDED, length_mm=16.0, width_mm=12.0)
    three = [rows_of(wide, tilt_deg=tilt_deg) for tilt_deg in (3.0, 5.0, 7.0)]
    assert min(three) > 0
    assert rows_of(wide, tilt_deg=5.0, tilt_tolerance_deg=2.0) == sum(three)


def test_every_search_of_a_question_is_paid_for() -> None:
    """A no is sought at nominal sizes, followed to both limits, and sought again at the better one."""
    nominal, worse, better = (
        Variant(
            opening=vary_opening(opening=TRACED, changes_mm={"edge": off_mm}),
            diameters_mm=tuple(size - off_mm / 2 for size in SIZES_MM),
        )
        for off_mm in (0.0, -0.1, 0.1)
    )
    place = {"tilt_deg": 0.0, "wall_thickness_mm": 0.0}
    sought = [
        find_set_clearance(opening=one.opening, diameters_mm=one.diameters_mm, **place).work_rows  # type: ignore[arg-type]
        for one in (nominal, better)
    ]
    followed = [
        one.work_rows
        for one in find_varied_clearances(nominal=nominal, variants=(worse, better), **place)  # type: ignore[arg-type]
    ]
    assert min(*sought, *followed) > 0
    assert asked(TRACED, *SIZES_MM).outcome is Outcome.NO_FIT
    assert rows_of(TRACED) == sum(sought) + sum(followed)


def test_a_no_that_nobody_wants_proven_costs_less_and_is_told_as_not_known() -> None:
    proving, trying = Allowance(), Allowance()
    assert asked(CROWDED, 5.0, 4.6, 4.0, allowance=proving).outcome is Outcome.NO_FIT
    assert asked(CROWDED, 5.0, 4.6, 4.0, allowance=trying, proves_no=False).outcome is not Outcome.FITS
    assert trying.spent_rows < proving.spent_rows


def test_a_question_that_is_not_asked_any_more_says_so() -> None:
    out = Allowance(whole_rows=1, spent_rows=1)
    check = asked(ROUND, 3.0, allowance=out)
    assert (check.outcome, check.proof, check.note) == (Outcome.UNKNOWN, PLAN_WORK_RAN_OUT, PLAN_WORK_RAN_OUT)
    assert out.spent_rows == 1


def test_a_search_cut_short_says_so_only_where_it_leaves_something_open() -> None:
    little = Allowance(each_rows=20)
    fits, passes_not = (
        asked(replace(CROWDED, width_mm=20.0), 3.0, 2.0, 1.0, allowance=little),
        asked(CROWDED, 5.0, 4.6, 4.0, allowance=little),
    )
    assert (fits.outcome, fits.note, fits.proof) == (Outcome.FITS, "", "placement")
    assert (passes_not.outcome, passes_not.note, passes_not.proof) == (Outcome.UNKNOWN, WORK_RAN_OUT, WORK_RAN_OUT)
    low, high = passes_not.band_mm or (0.0, 0.0)
    assert low < 0 <= high
    enough = asked(CROWDED, 5.0, 4.6, 4.0, allowance=Allowance(each_rows=MOST_WORK))
    assert (enough.outcome, enough.note, enough.band_mm) == (Outcome.NO_FIT, "", None)


@pytest.mark.parametrize(
    ("size_mm", "fit_class"),
    [
        (6.85, FitClass.CLEARANCE),  # 6.9 less 6.9
        (6.9, FitClass.TRANSITION),
        (7.15, FitClass.TRANSITION),  # 7.1 less 7.1
        (7.2, FitClass.INTERFERENCE),
    ],
)
def test_the_class_of_fit_goes_by_both_limits(size_mm: float, fit_class: FitClass) -> None:
    """Where worst or best is just nothing a rounding decides: a hair is taken off."""
    hair_mm = 1e-7 if size_mm in (6.85, 7.15) else 0.0
    assert asked(ROUND, size_mm - hair_mm).fit_class is fit_class


def test_what_may_be_off_has_no_class_and_takes_the_worst_of_both_ends() -> None:
    """At 20 degrees, give or take 20: at 40 a hole of 7 in a wall of 1.6 is 7 cos 40 - 1.6 sin 40 = 4.33 long."""
    place = {"tilt_deg": 20.0, "tilt_tolerance_deg": 20.0, "wall_thickness_mm": 1.6}
    clear, tight, open_, lacks = (asked(ROUND, size, **place) for size in (3.5, 4.2, 6.5, 7.5))
    assert [one.outcome for one in (clear, tight, open_, lacks)] == [
        Outcome.FITS,
        Outcome.TIGHT,
        Outcome.UNKNOWN,
        Outcome.NO_FIT,
    ]
    assert [one.note for one in (clear, tight, open_, lacks)] == ["", "", SPREAD, ""]
    assert {one.fit_class for one in (clear, tight, open_, lacks)} == {None}


def test_a_gauge_is_no_limit_and_its_note_goes_before_that_of_a_spread() -> None:
    gauge = RoundOpening(diameter_mm=7.0, tolerance_mm=0.0, is_at_least=True)
    told = asked(gauge, 6.5, tilt_deg=20.0, tilt_tolerance_deg=20.0, wall_thickness_mm=1.6)
    assert (told.outcome, told.note) == (Outcome.UNKNOWN, SPREAD)
    told = asked(gauge, 7.5)
    assert (told.outcome, told.proof, told.note, told.fit_class) == (Outcome.UNKNOWN, GAUGED, GAUGED, None)


def test_what_holds_at_the_worse_limit_holds_at_nominal_sizes() -> None:
    slot = SlotOpening(length_mm=14.0, width_mm=6.0, tolerance_mm=0.1)
    for sizes in ((5.0, 4.0, 3.0), (4.0, 4.0, 4.0), (5.5, 2.5, 2.5, 2.0)):
        check = asked(slot, *sizes)
        assert check.clearance_mm is not None
        assert check.worst_clearance_mm is not None
        assert check.available_mm == pytest.approx(sizes[0] + check.clearance_mm)
        assert check.worst_clearance_mm <= check.clearance_mm


def test_a_line_is_a_thing_that_bends_and_a_fitting_one_that_is_exact_and_stiff() -> None:
    line = thing_of_line(make_line(foam_diameter_mm=7.0))
    assert (line.diameter_mm, line.tolerance_mm, line.rigid_length_mm) == (7.0, 0.05, 0.0)
    assert thing_of_line(make_line(foam_diameter_mm=4.0)).diameter_mm == 5.0
    nut = thing_of_fitting(make_fitting())
    assert (nut.kind, nut.diameter_mm, nut.tolerance_mm, nut.rigid_length_mm) == (ThingKind.FITTING, 9.5, 0.0, 18)
