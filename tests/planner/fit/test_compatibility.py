"""The parts of whole jobs: what is asked, what is brought along, what stays open."""

import csv
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.documents.words.check_words import sentence_for
from planner.documents.words.need_words import need_words
from planner.errors import ImpossibleDimensionError
from planner.fit.compatibility import check_compatibility
from planner.fit.conversion_fit import LineFamily, find_open_ports
from planner.fit.fluid_fit import check_fluid_of_job
from planner.fit.mount_fit import check_adapter_lift
from planner.fit.rotor_fit import check_rotor_in_frame
from planner.fit.size_match import match_room_mm
from planner.fit.thread_fit import read_metric_thread
from planner.parts import AdapterKind, BrakeMount, Fluid, HubKind, LineEnd, LineKind, MountKind, StayingLine
from planner.parts.adapters import adapter_lift_mm
from planner.parts.fluids import FLUID_FACTS
from planner.plan.names import Names
from planner.rules import BrakeRule, PartRule
from planner.verdicts import Outcome
from tests.builders import make_limits
from tests.planner.fit.compatibility_samples import (
    ADAPTERS,
    UNTOLD,
    make_adapter,
    make_brake,
    make_fitting,
    make_frame,
    make_job,
    make_line,
    make_new,
    make_old,
    make_port,
)

PUBLISHED = Path(__file__).parents[2] / "published_values"


def _rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((PUBLISHED / name).open(encoding="utf-8")))


@pytest.mark.parametrize("row", _rows("adapter_lift.csv"), ids=lambda row: row["case"])
def test_adapter_lifts_by_half_the_change(row: dict[str, str]) -> None:
    lift_mm = adapter_lift_mm(step_mm=float(row["to_rotor_mm"]) - float(row["from_rotor_mm"]))
    assert lift_mm == pytest.approx(float(row["expected_mm"]), abs=float(row["tolerance_mm"]))


@pytest.mark.parametrize("row", _rows("iso724.csv"), ids=lambda row: row["case"])
def test_thread_has_the_published_basic_sizes(row: dict[str, str]) -> None:
    thread = read_metric_thread(row["designation"])
    assert thread is not None
    tolerance_mm = float(row["tolerance_mm"])
    assert thread.pitch_diameter_mm == pytest.approx(float(row["expected_pitch_diameter_mm"]), abs=tolerance_mm)
    assert thread.nut_minor_diameter_mm == pytest.approx(float(row["expected_nut_minor_diameter_mm"]), abs=tolerance_mm)
    assert thread.root_diameter_mm == pytest.approx(float(row["expected_root_diameter_mm"]), abs=tolerance_mm)


@pytest.mark.parametrize("row", _rows("fluids.csv"), ids=lambda row: row["case"])
def test_fluid_boils_no_lower_than_its_standard_asks(row: dict[str, str]) -> None:
    facts = FLUID_FACTS[Fluid(row["fluid"])]
    assert facts.dry_boiling_c == float(row["expected_dry_boiling_c"])
    assert facts.wet_boiling_c == float(row["expected_wet_boiling_c"])


def test_every_fluid_has_its_class() -> None:
    assert set(FLUID_FACTS) == set(Fluid)


@given(one=st.sampled_from(Fluid), other=st.sampled_from(Fluid))
def test_mixing_is_the_same_both_ways(one: Fluid, other: Fluid) -> None:
    def after(old: Fluid, new: Fluid) -> Outcome:
        check = check_fluid_of_job(old=make_old(brake=make_brake(fluid=old)), new=make_new(brake=make_brake(fluid=new)))
        assert check is not None
        return check.outcome

    assert after(one, other) is after(other, one)


@given(
    rotor_mm=st.floats(100, 250), least_mm=st.floats(100, 250), most_mm=st.floats(100, 250), more_mm=st.floats(0, 50)
)
def test_wider_limits_never_make_a_rotor_fit_worse(
    rotor_mm: float, least_mm: float, most_mm: float, more_mm: float
) -> None:
    narrow = BrakeMount(mount=MountKind.POST, rotor_min_mm=least_mm, rotor_max_mm=most_mm)
    wide = replace(narrow, rotor_min_mm=least_mm - more_mm, rotor_max_mm=most_mm + more_mm)
    assert (
        check_rotor_in_frame(rotor_mm=rotor_mm, frame_mount=wide).outcome
        <= check_rotor_in_frame(rotor_mm=rotor_mm, frame_mount=narrow).outcome
    )


@pytest.mark.parametrize(
    ("lift_mm", "outcome", "note"),
    [
        (10.5, Outcome.FITS, "half_the_change"),
        (10.51, Outcome.NO_FIT, "lift_off"),
        (9.49, Outcome.NO_FIT, "lift_off"),
        (None, Outcome.UNKNOWN, "lift_not_measured"),
    ],
)
def test_slip_in_an_adapter_s_lift_is_found(lift_mm: float | None, outcome: Outcome, note: str) -> None:
    adapter = make_adapter(AdapterKind.POST_STEP, 20, lift_mm=lift_mm)
    check = check_adapter_lift(adapter=adapter, lift_tolerance_mm=0.5)
    assert check is not None
    assert (check.outcome, check.note, check.size_mm) == (outcome, note, 10)
    assert "10" in sentence_for(check)


@pytest.mark.parametrize(
    ("lift_mm", "outcome", "note"),
    [
        (10.0, Outcome.FITS, "half_the_change"),
        (10.1, Outcome.UNKNOWN, "tolerance_not_known"),
        (None, Outcome.UNKNOWN, "lift_not_measured"),
    ],
)
def test_lift_that_is_off_is_not_judged_where_the_shop_has_not_said(
    lift_mm: float | None, outcome: Outcome, note: str
) -> None:
    adapter = make_adapter(AdapterKind.POST_STEP, 20, lift_mm=lift_mm)
    check = check_adapter_lift(adapter=adapter, lift_tolerance_mm=None)
    assert check is not None
    assert (check.outcome, check.note) == (outcome, note)
    assert "{" not in sentence_for(check)


@pytest.mark.parametrize(
    ("bar_mm", "match_clamp_mm", "outcome"),
    [
        (22.5, 0.3, Outcome.FITS),
        (22.5, 0.29, Outcome.NO_FIT),
        (22.5, None, Outcome.UNKNOWN),
        (22.2, None, Outcome.FITS),
    ],
)
def test_the_shop_says_how_far_sizes_may_differ(bar_mm: float, match_clamp_mm: float | None, outcome: Outcome) -> None:
    job = make_job(new=make_new(brake=make_brake(clamp_mm=22.2)), frame=make_frame(bar_clamp_mm=bar_mm))
    result = check_compatibility(job=job, adapters=ADAPTERS, limits=make_limits(match_clamp_mm=match_clamp_mm))
    assert {check.rule: check.outcome for check in result.checks}["lever_clamp"] is outcome


TOLERANCES = {
    "match_clamp_mm": BrakeRule.LEVER_CLAMP,
    "match_bore_mm": PartRule.HOSE_END_BORE,
    "match_lift_mm": BrakeRule.ADAPTER_LIFT,
}


@pytest.mark.parametrize("named", TOLERANCES)
def test_each_tolerance_reaches_its_own_check(named: str) -> None:
    """Every size is off by 0.2 mm: told off for the one tolerance of 0.1 mm, not told at all where nothing was said."""
    end = LineEnd(fitting=make_fitting(line_bore_mm=2.3))
    new = make_new(brake=make_brake(clamp_mm=22.2), end=end)
    job = make_job(new=new, frame=make_frame(bar_clamp_mm=22.4), rotor_mm=180)
    adapters = [make_adapter(AdapterKind.POST_STEP, 20, lift_mm=10.2)]
    result = check_compatibility(job=job, adapters=adapters, limits=replace(UNTOLD, **{named: 0.1}))
    outcomes = {check.rule: check.outcome for check in result.checks}
    assert {word: outcomes[rule] for word, rule in TOLERANCES.items()} == {
        word: Outcome.NO_FIT if word == named else Outcome.UNKNOWN for word in TOLERANCES
    }


@given(first_mm=st.floats(0.1, 100), second_mm=st.floats(0.1, 100), tolerance_mm=st.floats(0, 5))
def test_match_is_the_same_both_ways_and_equal_sizes_leave_the_whole_tolerance(
    first_mm: float, second_mm: float, tolerance_mm: float
) -> None:
    there = match_room_mm(first_mm=first_mm, second_mm=second_mm, tolerance_mm=tolerance_mm)
    assert there == match_room_mm(first_mm=second_mm, second_mm=first_mm, tolerance_mm=tolerance_mm)
    assert match_room_mm(first_mm=first_mm, second_mm=first_mm, tolerance_mm=None) == 0
    same = match_room_mm(first_mm=first_mm, second_mm=first_mm, tolerance_mm=tolerance_mm)
    assert same == pytest.approx(tolerance_mm, abs=1e-9)
    assert same is not None
    assert there is not None
    assert there <= same


@pytest.mark.parametrize("designation", ["M8", "G1/8", "", "8x1", "M8x"])
def test_what_is_no_metric_thread_with_pitch_is_not_read(designation: str) -> None:
    assert read_metric_thread(designation) is None


@pytest.mark.parametrize("designation", ["M8x0", "M2x2"])
def test_thread_without_a_core_is_refused(designation: str) -> None:
    with pytest.raises(
        ImpossibleDimensionError, match=f"pitch of {designation}: .* must be above zero and leave a core"
    ):
        read_metric_thread(designation)


def test_job_whose_parts_belong_together_fits() -> None:
    job = make_job(old=make_old(brake=make_brake(id="old")), new=make_new(brake=make_brake()))
    result = check_compatibility(job=job, adapters=ADAPTERS, limits=UNTOLD)
    assert result.outcome is Outcome.FITS
    assert [check.rule for check in result.checks] == [
        "mount",
        "rotor_size",
        "hub",
        "lever_clamp",
        "fluid",
    ]
    assert (result.adapter, result.part_ids, result.conversion) == (None, (), None)
    assert result.needs == ("fluid:glycol_dot5_1", "bleed_kit:glycol")


def test_larger_rotor_brings_its_adapter_and_the_adapter_s_bolts() -> None:
    job = make_job(new=make_new(brake=make_brake()), rotor_mm=203)
    result = check_compatibility(job=job, adapters=ADAPTERS, limits=UNTOLD)
    assert result.adapter is ADAPTERS[1]
    assert result.part_ids == ("post_step-43", "long-bolts")
    assert result.outcome is Outcome.FITS


def test_larger_rotor_without_adapters_does_not_fit() -> None:
    result = check_compatibility(job=make_job(new=make_new(brake=make_brake()), rotor_mm=203), limits=UNTOLD)
    assert result.outcome is Outcome.NO_FIT


@pytest.mark.parametrize(
    ("frame", "rotor_mm", "rotor_hub", "unknown"),
    [
        (make_frame(brakes={}), 160, HubKind.SIX_BOLT, {"mount", "rotor_size", "hub"}),
        (make_frame(bar_clamp_mm=None), 160, HubKind.SIX_BOLT, {"lever_clamp"}),
        (make_frame(), None, HubKind.SIX_BOLT, {"rotor_size"}),
        (make_frame(), 160, None, {"hub"}),
    ],
    ids=["frame mount", "bar", "rotor", "rotor seat"],
)
def test_what_was_not_told_is_unknown_and_nothing_else_is(
    frame: object, rotor_mm: float | None, rotor_hub: HubKind | None, unknown: set[str]
) -> None:
    job = make_job(frame=frame, new=make_new(brake=make_brake()), rotor_mm=rotor_mm, rotor_hub=rotor_hub)  # type: ignore[arg-type]
    result = check_compatibility(job=job, adapters=ADAPTERS, limits=UNTOLD)
    assert {check.rule for check in result.checks if check.outcome is Outcome.UNKNOWN} == unknown
    assert result.outcome is Outcome.UNKNOWN


def test_lever_side_is_a_question_and_never_an_outcome() -> None:
    result = check_compatibility(job=make_job(new=make_new(brake=make_brake())), adapters=ADAPTERS, limits=UNTOLD)
    (question,) = result.questions
    assert (question.rule, question.outcome) == ("lever_side", Outcome.UNKNOWN)
    assert result.outcome is Outcome.FITS
    assert sentence_for(question).endswith("?")


@pytest.mark.parametrize("kind", [LineKind.SHIFT_HOUSING, LineKind.INNER_CABLE, LineKind.ELECTRIC_WIRE])
def test_gear_and_dropper_lines_are_jobs_too(kind: LineKind) -> None:
    end = LineEnd(fitting=make_fitting(line_outer_mm=5.5, line_bore_mm=None, thread=""))
    job = make_job(old=make_old(kind=kind), new=make_new(kind=kind, end=end), rotor_mm=None, rotor_hub=None)
    result = check_compatibility(job=job, limits=UNTOLD)
    assert [(check.rule, check.note) for check in result.checks] == [("hose_end_outer", "line_too_thin")]
    assert result.questions == ()


def test_bare_wire_has_nothing_to_ask() -> None:
    result = check_compatibility(job=make_job(new=make_new(kind=LineKind.ELECTRIC_WIRE), rotor_mm=None), limits=UNTOLD)
    assert (result.checks, result.outcome) == ((), Outcome.FITS)


def test_fitting_on_the_line_already_is_not_asked_again() -> None:
    end = LineEnd(fitting=make_fitting(line_outer_mm=None), is_fitted=True)
    job = make_job(new=make_new(brake=make_brake(), end=end))
    result = check_compatibility(job=job, adapters=ADAPTERS, limits=UNTOLD)
    (check,) = [check for check in result.checks if check.rule == "hose_end_outer"]
    assert (check.outcome, check.note) == (Outcome.FITS, "sits_already")
    assert sentence_for(check) == "the fitting already sits on the line"


@pytest.mark.parametrize(
    ("thread", "note"), [("M8x0.75", "same_thread"), ("M8x1", "other_pitch"), ("", "thread_not_known")]
)
def test_hose_for_the_brake_that_stays_needs_its_thread(thread: str, note: str) -> None:
    end = LineEnd(fitting=make_fitting(thread=thread))
    old = replace(make_old(brake=make_brake()), to_end=LineEnd(fitting=make_fitting(), is_fitted=True))
    result = check_compatibility(job=make_job(old=old, new=make_new(end=end)), limits=UNTOLD)
    assert [check.note for check in result.checks if check.rule == "thread"] == [note]


def test_cable_to_hose_says_what_comes_off_and_which_holes_stay_open() -> None:
    ports = tuple(make_port(id) for id in ("front", "middle", "back", "shared"))
    old = make_old(kind=LineKind.BRAKE_HOUSING, through=("front", "middle", "shared", "back"))
    job = make_job(frame=make_frame(ports=ports), old=old, new=make_new(brake=make_brake()))
    job = replace(job, staying=(StayingLine(line=make_line(LineKind.SHIFT_HOUSING), through=("shared", "some-run")),))
    result = check_compatibility(job=job, adapters=ADAPTERS, route=("front", "back"), limits=UNTOLD)
    assert result.conversion is not None
    assert (result.conversion.was, result.conversion.becomes) == (LineFamily.MECHANICAL, LineFamily.HYDRAULIC)
    assert "inner_cable" in result.conversion.comes_off
    assert "bleed_kit" in result.conversion.is_new
    assert result.conversion.open_port_ids == ("middle",)
    assert result.needs == ("fluid:glycol_dot5_1", "bleed_kit:glycol", "plug:middle")
    assert [need_words(need, names=Names(places={"middle": "Down tube, middle"})) for need in result.needs] == [
        "fluid: DOT 5.1",
        "bleed kit: for glycol fluids (DOT 3, 4, 5.1) only",
        "plug for the open hole Down tube, middle",
    ]


@pytest.mark.parametrize(
    ("through", "route", "expected"),
    [
        ((), ("front",), None),
        (("front",), None, None),
        (("front",), ("front",), ()),
        (("front",), ("back",), ("front",)),
    ],
    ids=["old way not known", "new way not known", "none left open", "one left open"],
)
def test_open_holes_are_told_only_when_both_ways_are_known(
    through: tuple[str, ...], route: tuple[str, ...] | None, expected: tuple[str, ...] | None
) -> None:
    job = make_job(old=make_old(through=through), new=make_new(brake=make_brake()))
    assert find_open_ports(job=job, route=route) == expected


def test_closed_stop_is_named_and_never_drilled() -> None:
    ports = (make_port("stop", admits=(LineKind.INNER_CABLE,)), make_port("back"))
    old = make_old(kind=LineKind.INNER_CABLE, through=("stop", "back"))
    job = make_job(frame=make_frame(ports=ports), old=old, new=make_new(brake=make_brake()))
    result = check_compatibility(job=job, adapters=ADAPTERS, limits=UNTOLD)
    stop, back = result.way_checks
    assert (stop.port_id, stop.outcome, stop.note) == ("stop", Outcome.NO_FIT, "closed_stop")
    assert back.outcome is Outcome.FITS
    assert result.outcome is Outcome.FITS
    assert "never drill" in sentence_for(stop)
