"""The two example files become planner parts, every short name with its unit."""

from decimal import Decimal

import pytest

from catalog import (
    Catalog,
    check_files,
    read_catalog,
    read_job,
)
from planner import parts
from tests.catalog.samples import EXAMPLE_FRAME, EXAMPLE_JOB


@pytest.fixture(scope="module")
def catalog() -> Catalog:
    return read_catalog([EXAMPLE_FRAME])


@pytest.fixture(scope="module")
def job(catalog: Catalog) -> parts.Job:
    return read_job(EXAMPLE_JOB, catalog)


def test_examples_have_nothing_wrong() -> None:
    assert check_files([EXAMPLE_FRAME, EXAMPLE_JOB]) == []


def test_frame_keeps_everything_in_catalog_order(catalog: Catalog) -> None:
    frame = catalog.frames["larkmoor-140"]
    assert list(frame.ports) == ["neck-left", "belly-left", "stay-front", "stay-rear"]
    assert list(frame.runs) == ["cockpit", "down-run", "bb-loop", "stay-run", "tail"]
    assert list(frame.zones) == ["down_tube", "stay_left"]
    assert list(frame.anchors) == ["bar-right", "bar-left", "caliper-rear"]
    assert frame.bar_clamp_mm is None, "nobody measured it"


def test_port_with_slot_and_insert(catalog: Catalog) -> None:
    port = catalog.frames["larkmoor-140"].ports["neck-left"]
    assert port == parts.Port(
        id="neck-left",
        label="Down tube, upper left",
        joins=("outside", "down_tube"),
        position_mm=(416.0, 24.0, 520.0),
        heading=(-0.48, -0.643, -0.60),
        opening=parts.SlotOpening(length_mm=19.0, width_mm=7.0, tolerance_mm=0.1),
        tilt_deg=50.0,
        wall_thickness_mm=1.6,
        insert=parts.Insert(
            opening=parts.SlotOpening(length_mm=10.2, width_mm=5.4, tolerance_mm=0.1), is_removable=True
        ),
    )


def test_guide_bar_rear_and_mounts(catalog: Catalog) -> None:
    frame = catalog.frames["larkmoor-140"]
    assert frame.runs["stay-run"].guide == parts.Guide(
        bore_diameter_mm=6.2, bend_radius_mm=400.0, turn_deg=12.0, length_mm=None, tolerance_mm=0.1
    )
    assert frame.bar == parts.Bar(axis_point_mm=(405.0, 0.0, 612.0), axis=(-0.42, 0.0, 0.91), lock_deg=75.0)
    assert frame.rear == parts.SinglePivot(
        pivot_mm=(12.0, 58.0), swing_deg=15.0, moves=("stay-front", "stay-rear", "caliper-rear")
    )
    assert frame.brakes == {
        "rear": parts.BrakeMount(
            mount=parts.MountKind.POST, rotor_native_mm=180.0, rotor_max_mm=203.0, hub=parts.HubKind.SIX_BOLT
        )
    }


def test_methods_by_kind(catalog: Catalog) -> None:
    coupler, sleeve, spoke = catalog.workshop.methods
    assert coupler == parts.ThreadedCoupler(
        id="stud-26",
        name="Threaded coupler 2.6",
        stud_diameter_mm=2.6,
        stud_length_mm=9.0,
        collar_diameter_mm=4.6,
        collar_length_mm=3.0,
        holds_n=60.0,
        setup_min=6.0,
    )
    assert sleeve == parts.SleeveTube(
        id="sleeve-46",
        name="Sleeve tube 4 x 6",
        bore_diameter_mm=4.0,
        outer_diameter_mm=6.0,
        grip_length_mm=25.0,
        holds_n=8.0,
        setup_min=4.0,
    )
    assert spoke == parts.SpokeLink(
        id="spoke-20", name="Spoke link 2.0", rod_diameter_mm=2.0, reach_mm=20.0, holds_n=0.0, setup_min=5.0
    )


def test_a_comma_inside_words_in_braces_belongs_to_the_words(catalog: Catalog) -> None:
    washers = catalog.workshop.small_parts["washer-pair"]
    assert washers == parts.SmallPart(id="washer-pair", name="Banjo washers, pair", price=Decimal("1.60"))


def test_lever_end_sits_where_the_bar_turns(job: parts.Job) -> None:
    assert job.old is not None
    assert (job.old.from_end.fitting.id, job.old.to_end.fitting.id) == ("nut-m8", "crimp-82")  # type: ignore[union-attr]
    assert (job.new.from_end.fitting.id, job.new.to_end.fitting.id) == ("nut-m8", "banjo-50")  # type: ignore[union-attr]


def test_ends_of_the_old_brake_count_as_fitted_and_those_of_the_new_as_supplied(job: parts.Job) -> None:
    assert job.old is not None
    assert (job.old.from_end.is_fitted, job.old.to_end.is_fitted) == (True, True)
    assert (job.new.from_end.is_fitted, job.new.to_end.is_fitted) == (True, False)


def test_job_carries_what_the_file_says(job: parts.Job) -> None:
    assert (job.id, job.rotor_mm, job.rotor_hub) == ("rear-brake-swap", 180.0, None)
    assert job.new.supplied_length_mm == 2100.0
    assert [(line.line.id, line.through) for line in job.staying] == [("gear-40", ("neck-left",))]
    assert (job.may_remove_inserts, job.keeps_old_brake) == (True, False)


def test_catalog_without_shop_takes_the_starter_limits(catalog: Catalog) -> None:
    limits = catalog.workshop.limits
    assert (limits.running_clearance_mm, limits.stud_squeeze_min_mm, limits.stud_squeeze_max_mm) == (0.2, 0.2, 0.8)
    assert (limits.trim_allowance_mm, limits.length_step_mm) == (10.0, 5.0)
    assert catalog.workshop.steps
    assert set(catalog.workshop.cautions) >= {"competent", "fluid", "soft-lever"}


def test_same_files_are_read_once(catalog: Catalog) -> None:
    assert read_catalog([EXAMPLE_FRAME]) is catalog
