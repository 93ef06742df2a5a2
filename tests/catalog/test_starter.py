"""The starter catalog is sound, complete and made of plain sizes."""

import re

import pytest

from catalog import STARTER_FOLDER, Catalog, check_files, read_catalog, read_job
from catalog.open_catalog import starter_work
from catalog.shop import ShopEntry
from planner import parts, plan_job
from tests.catalog.samples import EXAMPLE_FRAME, EXAMPLE_JOB


@pytest.fixture(scope="module")
def starter() -> Catalog:
    return read_catalog()


def test_starter_has_nothing_wrong() -> None:
    assert check_files([STARTER_FOLDER]) == []


def test_starter_has_enough_to_begin_with(starter: Catalog) -> None:
    assert len(starter.lines) >= 6
    assert len(starter.fittings) >= 8
    assert len(starter.brakes) >= 6
    assert len(starter.workshop.methods) >= 12


@pytest.mark.parametrize("kind", [parts.ThreadedCoupler, parts.SleeveTube, parts.SpokeLink, parts.LeaderLine])
def test_starter_has_several_sizes_of_each_kind_of_method(kind: type, starter: Catalog) -> None:
    assert sum(isinstance(method, kind) for method in starter.workshop.methods) >= 3


def test_starter_has_every_kind_of_line_and_fluid_family(starter: Catalog) -> None:
    assert {line.kind for line in starter.lines.values()} == set(parts.LineKind)
    fluids = {brake.fluid for brake in starter.brakes.values()}
    assert fluids >= {None, parts.Fluid.MINERAL_OIL, parts.Fluid.SILICONE_DOT5, parts.Fluid.GLYCOL_DOT5_1}


def test_every_fitting_of_a_brake_is_made_for_its_line(starter: Catalog) -> None:
    for brake in starter.brakes.values():
        for end in (brake.lever_end, brake.caliper_end):
            assert end.fitting is not None
            assert end.fitting.line_outer_diameter_mm == brake.line.outer_diameter_mm
            assert end.fitting.line_bore_diameter_mm in (None, brake.line.bore_diameter_mm)


def test_every_coupler_bites_in_one_of_the_hoses(starter: Catalog) -> None:
    limits = starter.workshop.limits
    bores = [line.bore_diameter_mm for line in starter.lines.values() if line.kind is parts.LineKind.HYDRAULIC_HOSE]
    for method in starter.workshop.methods:
        if isinstance(method, parts.ThreadedCoupler):
            squeezes = [method.stud_diameter_mm - (bore or 0) for bore in bores]
            assert any(limits.stud_squeeze_min_mm <= squeeze <= limits.stud_squeeze_max_mm for squeeze in squeezes)


def test_every_housing_has_a_friction_so_that_the_loss_of_hand_force_is_answered(starter: Catalog) -> None:
    housings = (parts.LineKind.BRAKE_HOUSING, parts.LineKind.SHIFT_HOUSING)
    frictions = {line.id: line.friction_ratio for line in starter.lines.values() if line.kind in housings}
    assert frictions == {"brake-housing-50": 0.1, "gear-housing-40": 0.06, "gear-housing-50": 0.06}


def test_starter_names_say_that_they_are_invented(starter: Catalog) -> None:
    assert all("(invented)" in brake.name for brake in starter.brakes.values())


def test_every_starter_file_says_where_its_figures_come_from() -> None:
    for path in STARTER_FOLDER.glob("*.yaml"):
        head = "\n".join(re.findall(r"^#.*$", path.read_text(encoding="utf-8"), flags=re.MULTILINE)).replace(
            "\n# ", " "
        )
        assert re.search(r"[Cc]ommon practice, no source|invented figures", head), path.name


def test_starter_shop_leaves_nothing_out() -> None:
    shop = starter_work().shop
    assert shop is not None
    missing = [name for name in ShopEntry.model_fields if getattr(shop, name) is None]
    steers_nothing = ["pressure_growth", "pressure_shrink"]  # read in older files; a line tells its own
    its_own = ["time_zone", "geometry_error"]  # the zone is the machine's, the error that of each frame
    assert missing == ["name", "address", *steers_nothing, *its_own, "source"]


def test_work_files_stay_short_because_every_plan_reads_them() -> None:
    assert sum((STARTER_FOLDER / name).stat().st_size for name in ("shop.yaml", "steps.yaml", "cautions.yaml")) < 54_000


def test_steps_keep_the_mechanics_order(starter: Catalog) -> None:
    order = [step.id for step in starter.workshop.steps]
    story = [
        "read-first",
        "note-before",
        "pads-out",
        "block-old",
        "inserts-out",
        "drain-old",
        "cut-old",
        "join-coupler",
        "feed-easing",
        "joint-out",
    ]
    story += ["caliper-on", "lay-line", "trim-new", "set-leading", "inserts-back", "block-in", "bleed-glycol", "leaks"]
    story += ["pads-in", "wheel-in", "align", "torque", "lever-firm", "stand-test", "test", "bed-in"]
    assert [step for step in order if step in story] == story


def test_every_caution_is_told_somewhere(starter: Catalog) -> None:
    at_steps = {caution for step in starter.workshop.steps for caution in step.cautions}
    for caution in starter.workshop.cautions.values():
        assert caution.id in at_steps or caution.when or caution.unless or caution.asks_torque, caution.id


def test_no_placeholder_is_left_open_in_a_plan() -> None:
    catalog = read_catalog([EXAMPLE_FRAME])
    plan = plan_job(job=read_job(EXAMPLE_JOB, catalog), workshop=catalog.workshop)
    assert len(plan.steps) > 10
    assert not [step.text for step in plan.steps if "{" in step.text or "{" in step.why]
