"""Adapters reach the planner, and slips in them are told."""

import re
from decimal import Decimal

import pytest

from catalog import Catalog, read_catalog
from planner import parts
from tests.catalog.samples import FOLDER, problems_in

RING = '{id: ring, kind: post_step, step: 20, lift: 10, price: "12.00", uses: [bolts]}'


@pytest.fixture(scope="module")
def starter() -> Catalog:
    return read_catalog()


def _told(adapter: str, *, part_id: str = "bolts") -> list[str]:
    text = f"format: 1\nparts:\n  - {{id: {part_id}}}\nadapters:\n  - {adapter}\n"
    return [str(problem) for problem in problems_in(text)]


def test_adapter_becomes_a_part_with_its_units(starter: Catalog) -> None:
    (adapter,) = [one for one in starter.workshop.adapters if one.id == "flat-front-plate-high"]
    assert adapter == parts.Adapter(
        id="flat-front-plate-high",
        name="Flat mount plate for the fork, the high way",
        kind=parts.AdapterKind.FLAT_PLATE,
        frame_mount=parts.MountKind.FLAT,
        caliper_mount=parts.MountKind.FLAT,
        end=parts.FrameEnd.FRONT,
        step_mm=20.0,
        native_mm=140.0,
        lift_mm=10.0,
        price=Decimal("11.00"),
        uses=("bolts-m5-flat-front",),
    )


def test_what_an_adapter_leaves_out_stays_unknown() -> None:
    (plate,) = read_catalog([FOLDER / "zoo.yaml"]).workshop.adapters
    assert (plate.name, plate.lift_mm, plate.price, plate.uses) == ("plate", None, None, ())


def test_catalog_without_adapters_has_none() -> None:
    assert read_catalog([FOLDER / "example_frame.yaml"]).workshop.adapters == ()


def test_starter_adapters_lift_by_half_their_step_and_have_prices(starter: Catalog) -> None:
    assert len(starter.workshop.adapters) >= 6
    for adapter in starter.workshop.adapters:
        if adapter.kind in (parts.AdapterKind.TABS, parts.AdapterKind.SPECIAL):
            assert adapter.lift_mm is None, "the thickness of such a piece is no lift"
        else:
            assert adapter.step_mm is not None
            assert adapter.lift_mm == parts.adapter_lift_mm(step_mm=adapter.step_mm), adapter.id
        if adapter.ask is not None:
            continue
        assert adapter.price is not None
        assert adapter.uses, "no adapter goes on without bolts"
        assert all(starter.workshop.small_parts[part_id].price is not None for part_id in adapter.uses)


def test_what_is_asked_about_first_becomes_a_part_that_says_so(starter: Catalog) -> None:
    asked = {one.id: (one.kind, one.step_mm, one.ask) for one in starter.workshop.adapters if one.ask is not None}
    assert asked == {
        "post-step-17": (parts.AdapterKind.POST_STEP, 17.0, parts.AskFirst.SELDOM_SOLD),
        "post-washers-3": (parts.AdapterKind.POST_WASHERS, 3.0, parts.AskFirst.MAKER_ALLOWS),
        "post-on-flat": (parts.AdapterKind.SPECIAL, None, parts.AskFirst.PIECE_IN_HAND),
        "flat-on-post": (parts.AdapterKind.SPECIAL, 20.0, parts.AskFirst.PIECE_IN_HAND),
    }


def test_no_two_starter_adapters_do_the_same(starter: Catalog) -> None:
    jobs = [(a.frame_mount, a.caliper_mount, a.end, a.step_mm) for a in starter.workshop.adapters]
    assert len(set(jobs)) == len(jobs)


@pytest.mark.parametrize(
    "adapter",
    [
        RING,
        RING.replace(", lift: 10", ""),
        RING.replace("lift: 10", "lift: 0.1"),
        RING.replace("step: 20", "step: 0.5"),
        RING.replace("kind: post_step", "kind: post_step, frame_mount: post"),
        RING.replace("post_step, step: 20, lift: 10", "tabs, end: rear, step: 0, lift: 0"),
        RING.replace("post_step, step: 20, lift: 10", "flat_plate, end: front, step: 0, native: 140"),
        RING.replace("post_step, step: 20, lift: 10", "special, frame_mount: flat, caliper_mount: post"),
    ],
)
def test_sound_adapter_is_taken(adapter: str) -> None:
    assert _told(adapter) == []


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        (
            "step: 20",
            "step: 0",
            "step: 0 mm was given, more than 0 mm is allowed: at its native rotor a mount takes no",
        ),
        ("step: 20", "step: -20", "step: -20 mm was given, 0 to 150 mm is allowed"),
        ("step: 20, ", "", "step: nothing was given, the new rotor less the one the mount stands for must be given"),
        ("lift: 10", "lift: 0", "lift: 0 mm was given, above zero for a step of 20 mm; leave it out when nobody"),
        ("lift: 10", "lift: -10", "lift: -10 mm was given, 0 to 110 mm is allowed"),
        ("lift: 10", "lift: 0.4", None),
        ("uses: [bolts]", "uses: [bolt]", "uses no. 1: there is no part bolt, did you mean bolts?"),
        ("post_step", "tabs", "end: any was given, front or rear is allowed: brackets for tabs are"),
        ("post_step", "flat_plate", "end: any was given, front or rear is allowed: a flat plate is made for one"),
        ("post_step", "post_steps", "kind: 'post_steps' was given, one of post_step, post_washers, tabs, flat_plate"),
        ("post_step", "post_step, caliper_mount: flat", "caliper_mount: flat was given, post, as the kind post_step"),
        (
            "post_step",
            "special, frame_mount: flat",
            "caliper_mount: nothing was given, one of post, flat, is_tabs must",
        ),
        ("lift: 10", "lifts: 10", "lifts: lifts is not a field here, did you mean lift?"),
        (
            "lift: 10",
            "lift: 10, from_rotor: 160",
            "from_rotor: from_rotor is not a field here, adapters go by kind, end",
        ),
        ("lift: 10", "lift: 10, to_rotor: 180", "to_rotor: to_rotor is not a field here, adapters go by kind, end and"),
    ],
)
def test_slip_in_an_adapter_is_told(before: str, after: str, told: str | None) -> None:
    assert before in RING
    problems = _told(RING.replace(before, after))
    if told is None:
        assert problems == [], "whether a lift is the right one is the planner's business"
        return
    (problem,) = problems
    assert problem.startswith(f"f.yaml:5: adapter ring > {told}")


def test_adapter_may_not_share_its_id_with_a_small_part() -> None:
    (problem,) = _told(RING.replace("uses: [bolts]", "uses: [ring]"), part_id="ring")
    assert problem == ("f.yaml:5: adapter ring > id: part ring is already given at f.yaml:3, an id of its own for each")


def test_a_name_tells_the_unit_of_a_step(starter: Catalog) -> None:
    """A rotor's step was told as a bare 20 in a shopping list, beside lengths and pieces."""
    names = [one.name for one in (*starter.workshop.adapters, *starter.workshop.small_parts.values())]
    with_step = [name for name in names if "step of" in name]
    assert len(with_step) == 9
    assert [name for name in with_step if not re.search(r"step of [0-9.]+ mm\b", name)] == []
