"""Every field that the examples do not use reaches the planner, and left-out fields stay unknown."""

from decimal import Decimal
from pathlib import Path

import pytest

from catalog import Catalog, CatalogProblems, job_from_fields, read_catalog
from planner import parts
from tests.catalog.samples import FOLDER

ZOO = FOLDER / "zoo.yaml"


@pytest.fixture(scope="module")
def catalog() -> Catalog:
    return read_catalog([ZOO])


def test_port_nobody_measured_has_no_opening(catalog: Catalog) -> None:
    assert catalog.frames["zoo"].ports["unmeasured"].opening is None


def test_openings_by_shape_take_the_shops_tolerance(catalog: Catalog) -> None:
    ports = catalog.frames["zoo"].ports
    assert ports["round"].opening == parts.RoundOpening(diameter_mm=7.0, tolerance_mm=0.15)
    assert ports["oval"].opening == parts.OvalOpening(length_mm=9.0, width_mm=7.0, tolerance_mm=0.15)
    assert ports["box"].opening == parts.BoxOpening(
        length_mm=9.0, width_mm=7.0, corner_radius_mm=0.0, tolerance_mm=0.15
    )
    assert ports["rim"].opening == parts.OutlineOpening(
        points_mm=((0.0, 0.0), (9.0, 0.0), (9.0, 6.0)), tolerance_mm=0.3
    )


def test_what_a_port_admits_and_drags(catalog: Catalog) -> None:
    port = catalog.frames["zoo"].ports["round"]
    assert port.admits == (parts.LineKind.SHIFT_HOUSING, parts.LineKind.ELECTRIC_WIRE)
    assert (port.entry_drag_n, port.tilt_deg) == (2.5, 0.0)
    assert catalog.frames["zoo"].ports["box"].entry_drag_n is None


def test_via_clips_and_straight_guide(catalog: Catalog) -> None:
    runs = catalog.frames["zoo"].runs
    assert runs["open"].via_mm == ((1.0, 2.0, 3.0),)
    assert runs["open"].clips_mm == ((4.0, 5.0, 6.0), (7.0, 8.0, 9.0))
    assert runs["straight"].guide == parts.Guide(
        bore_diameter_mm=6.0, bend_radius_mm=None, turn_deg=0.0, length_mm=80.0, tolerance_mm=0.2
    )


def test_four_bar_rear_and_front_mount(catalog: Catalog) -> None:
    frame = catalog.frames["zoo"]
    assert frame.rear == parts.FourBar(
        frame_pivots_mm=((0.0, 10.0), (0.0, 60.0)),
        link_pivots_mm=((-50.0, 10.0), (-50.0, 60.0)),
        swing_deg=12.0,
        moves=("still",),
    )
    assert frame.brakes == {"front": parts.BrakeMount(mount=parts.MountKind.FLAT, rotor_native_mm=160.0)}
    assert frame.bar_clamp_mm == 22.2
    assert frame.zones["tube"].bore_diameter_mm is None


def test_an_anchor_keeps_its_label_and_has_none_where_none_was_given(catalog: Catalog) -> None:
    anchors = catalog.frames["zoo"].anchors
    assert (anchors["still"].label, anchors["bar"].label) == ("Clip, rider's left", "")


def test_line_weights_friction_price_and_the_shops_tolerance(catalog: Catalog) -> None:
    housing = catalog.lines["housing"]
    assert (housing.friction_ratio, housing.mass_g_per_m, housing.price_per_m) == (0.06, 55.0, Decimal("4.00"))
    assert (housing.outer_tolerance_mm, catalog.lines["wire"].outer_tolerance_mm) == (0.05, 0.2)
    assert (housing.bore_diameter_mm, housing.name) == (None, "housing")


def test_cable_pulled_brake_has_no_fluid_and_bare_ends(catalog: Catalog) -> None:
    brake = catalog.brakes["cabled"]
    assert (brake.fluid, brake.price, brake.supplied_length_mm) == (None, Decimal("62.00"), None)
    assert brake.lever_end == brake.caliper_end == parts.LineEnd()


def test_fitting_has_a_price_when_it_is_given(catalog: Catalog) -> None:
    assert catalog.fittings["plug"].price == Decimal("2.10")
    assert catalog.fittings["plug"].insertion_depth_mm == 0.0


def test_leader_line(catalog: Catalog) -> None:
    assert catalog.workshop.methods == (
        parts.LeaderLine(
            id="cord",
            name="cord",
            outer_diameter_mm=1.0,
            joint_diameter_mm=5.4,
            joint_length_mm=0.0,
            holds_n=None,
            setup_min=20.0,
            uses=("cord-2m",),
            fail_chance=0.1,
        ),
    )
    assert catalog.workshop.small_parts["cord-2m"].price is None


def test_shop_overrides_what_it_names_and_no_more(catalog: Catalog) -> None:
    limits = catalog.workshop.limits
    assert (limits.running_clearance_mm, limits.trim_allowance_mm) == (0.3, 10.0)
    assert limits.labour_per_hour == Decimal("48.50")


def test_lever_sits_at_to_when_only_to_turns_with_the_bar(catalog: Catalog) -> None:
    job = job_from_fields(
        {"id": "j", "frame": "zoo", "from": "still", "to": "bar", "old": "none", "new": {"brake": "cabled"}}, catalog
    )
    assert (job.from_anchor_id, job.old, job.title) == ("still", None, "j")


def test_bare_wire_with_a_plug_on_one_end(catalog: Catalog) -> None:
    job = job_from_fields(
        {
            "id": "j",
            "frame": "zoo",
            "from": "bar",
            "to": "still",
            "old": {"line": "wire", "through": ["round"], "measured_length": 900},
            "new": {"line": "wire", "to_end": {"fitting": "plug", "fitted": True}, "supplied_length": 950},
            "rotor_hub": "splined",
            "allow": {"keep_old_brake": True, "remove_inserts": False},
        },
        catalog,
    )
    assert job.old is not None
    assert (job.old.through, job.old.measured_length_mm, job.old.brake) == (("round",), 900.0, None)
    assert job.new.to_end == parts.LineEnd(fitting=catalog.fittings["plug"], is_fitted=True)
    assert job.new.from_end == parts.LineEnd()
    assert job.new.supplied_length_mm == 950.0
    assert (job.rotor_hub, job.keeps_old_brake, job.may_remove_inserts) == (parts.HubKind.SPLINED, True, False)


def test_outline_that_crosses_itself_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "crossed.yaml"
    crossed = "[[0, 0], [9, 6], [9, 0], [0, 6]]"
    text = ZOO.read_text(encoding="utf-8").replace("[[0, 0], [9, 0], [9, 6]]", crossed)
    path.write_text(text, encoding="utf-8")
    with pytest.raises(
        CatalogProblems, match=r"port rim > opening points: the sides after points no\. 1 and no\. 3 meet"
    ):
        read_catalog([path])
