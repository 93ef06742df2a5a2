"""Adapters reach the planner, and slips in them are told."""

from decimal import Decimal

import pytest

from catalog import Catalog, read_catalog
from planner import parts
from tests.catalog.samples import FOLDER, problems_in

RING = (
    "{id: ring, frame_mount: post, caliper_mount: post, from_rotor: 160, to_rotor: 180, lift: 10, "
    'price: "12.00", uses: [bolts]}'
)


@pytest.fixture(scope="module")
def starter() -> Catalog:
    return read_catalog()


def _told(adapter: str, *, part_id: str = "bolts") -> list[str]:
    text = f"format: 1\nparts:\n  - {{id: {part_id}}}\nadapters:\n  - {adapter}\n"
    return [str(problem) for problem in problems_in(text)]


def test_adapter_becomes_a_part_with_its_units(starter: Catalog) -> None:
    (adapter,) = [one for one in starter.workshop.adapters if one.id == "post-160-203"]
    assert adapter == parts.Adapter(
        id="post-160-203",
        name="Post mount adapter from 160 to 203",
        frame_mount=parts.MountKind.POST,
        caliper_mount=parts.MountKind.POST,
        from_rotor_mm=160.0,
        to_rotor_mm=203.0,
        lift_mm=21.5,
        price=Decimal("13.00"),
        uses=("bolts-m6-longer-20",),
    )


def test_what_an_adapter_leaves_out_stays_unknown() -> None:
    (plate,) = read_catalog([FOLDER / "zoo.yaml"]).workshop.adapters
    assert (plate.name, plate.lift_mm, plate.price, plate.uses) == ("plate", None, None, ())


def test_catalog_without_adapters_has_none() -> None:
    assert read_catalog([FOLDER / "example_frame.yaml"]).workshop.adapters == ()


def test_starter_adapters_lift_by_half_the_change_and_have_prices(starter: Catalog) -> None:
    assert len(starter.workshop.adapters) >= 6
    for adapter in starter.workshop.adapters:
        needed_mm = parts.adapter_lift_mm(from_rotor_mm=adapter.from_rotor_mm, to_rotor_mm=adapter.to_rotor_mm)
        assert adapter.lift_mm == needed_mm, adapter.id
        assert adapter.price is not None
        assert adapter.uses, "no adapter goes on without bolts"
        assert all(starter.workshop.small_parts[part_id].price is not None for part_id in adapter.uses)


def test_no_two_starter_adapters_do_the_same(starter: Catalog) -> None:
    jobs = [(a.frame_mount, a.caliper_mount, a.from_rotor_mm, a.to_rotor_mm) for a in starter.workshop.adapters]
    assert len(set(jobs)) == len(jobs)


@pytest.mark.parametrize(
    "adapter",
    [
        RING,
        RING.replace(", lift: 10", ""),
        RING.replace("lift: 10", "lift: 0.1"),
        RING.replace("to_rotor: 180", "to_rotor: 160.5"),
        RING.replace("frame_mount: post", "frame_mount: is_tabs").replace("180, lift: 10", "160, lift: 0"),
    ],
)
def test_sound_adapter_is_taken(adapter: str) -> None:
    assert _told(adapter) == []


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        ("to_rotor: 180", "to_rotor: 160", "to_rotor: 160 mm was given, more than from_rotor, 160 mm, is allowed, or"),
        ("to_rotor: 180", "to_rotor: 140", "to_rotor: 140 mm was given, at least from_rotor, 160 mm, is allowed: an"),
        ("lift: 10", "lift: 0", "lift: 0 mm was given, above zero for a rotor of 180 instead of 160 mm; leave it out"),
        ("lift: 10", "lift: -10", "lift: -10 mm was given, 0 to 110 mm is allowed"),
        ("lift: 10", "lift: 0.4", None),
        ("to_rotor: 180", "to_rotor: 7.1", "to_rotor: 7.1 mm was given, 80 to 300 mm is allowed; if that was inches"),
        ("uses: [bolts]", "uses: [bolt]", "uses no. 1: there is no part bolt, did you mean bolts?"),
        ("caliper_mount: post", "caliper_mount: posts", "caliper_mount: 'posts' was given, one of post, flat, is_tabs"),
        (", to_rotor: 180", "", "to_rotor: nothing was given, 80 to 300 mm must be given"),
        ("lift: 10", "lifts: 10", "lifts: lifts is not a field here, did you mean lift?"),
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
