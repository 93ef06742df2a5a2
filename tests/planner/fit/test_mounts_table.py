"""Every row of the decision table of mounts, asked of the check that a plan asks, with the starter's adapters."""

import csv
from functools import cache
from pathlib import Path

import pytest

from catalog import Catalog, read_catalog
from planner.documents.words.check_words import sentence_for
from planner.fit.compatibility import CompatibilityResult, check_compatibility
from planner.parts import Adapter, AdapterKind, BrakeMount, FrameEnd, HubKind, MountKind, MovesWith
from planner.verdicts import Outcome
from tests.planner.fit.compatibility_samples import make_brake, make_frame, make_job, make_new

TABLE = Path(__file__).parents[2] / "published_values/mounts.csv"
ROWS = list(csv.DictReader(TABLE.open(encoding="utf-8")))
MOUNT_RULES = ("mount", "rotor_size", "adapter_lift")
KIND_WORDS = {
    (AdapterKind.POST_STEP, None): "post_step",
    (AdapterKind.POST_WASHERS, None): "post_washers",
    (AdapterKind.TABS, FrameEnd.FRONT): "tab_front",
    (AdapterKind.TABS, FrameEnd.REAR): "tab_rear",
    (AdapterKind.FLAT_PLATE, FrameEnd.FRONT): "flat_front_plate",
    (AdapterKind.FLAT_PLATE, FrameEnd.REAR): "flat_rear_plate",
    (AdapterKind.SPECIAL, None): "special",
}
TAB_BASE_MM = {"tab_front": 160, "tab_rear": 140}
Row = dict[str, str]


@cache
def starter() -> Catalog:
    return read_catalog()


def word_for(adapter: Adapter) -> str:
    return KIND_WORDS[adapter.kind, adapter.end]


def at_hand(text: str) -> tuple[Adapter, ...]:
    """All of the starter's adapters, none, or those of a kind and, where told, of a step or a stamp."""
    if not text:
        return starter().workshop.adapters
    word, _, figure = text.partition(" ")
    wanted_mm = float(figure) - TAB_BASE_MM.get(word, 0) if figure else None
    return tuple(
        adapter
        for adapter in starter().workshop.adapters
        if word_for(adapter) == word and wanted_mm in (None, adapter.step_mm)
    )


def ask(row: Row) -> CompatibilityResult:
    number = {key: float(row[key]) if row[key] else None for key in ("native_mm", "greatest_mm", "rotor_mm")}
    mount = BrakeMount(
        mount=MountKind(row["frame_mount"]),
        rotor_native_mm=number["native_mm"],
        rotor_max_mm=number["greatest_mm"],
        hub=HubKind.SIX_BOLT,
    )
    frame = make_frame(
        caliper_moves_with=MovesWith.BAR if row["end"] == "front" else MovesWith.REAR, brakes={row["end"]: mount}
    )
    job = make_job(
        frame=frame,
        new=make_new(brake=make_brake(mount=MountKind(row["caliper_mount"]))),
        rotor_mm=number["rotor_mm"],
    )
    return check_compatibility(job=job, adapters=at_hand(row["at_hand"]), limits=starter().workshop.limits)


def answer_in(result: CompatibilityResult) -> str:
    asked = [check.outcome for check in result.checks if check.rule in MOUNT_RULES]
    worst = max(asked)
    if worst is Outcome.FITS:
        return "nothing" if result.adapter is None else "adapter"
    return {Outcome.UNKNOWN: "ask", Outcome.NO_FIT: "no"}[worst]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_row_gets_its_answer(row: Row) -> None:
    result = ask(row)
    assert answer_in(result) == row["expected_answer"]
    (mount,) = [check for check in result.checks if check.rule == "mount"]
    named = {adapter.id: adapter for adapter in starter().workshop.adapters}
    words = [word_for(named[id]) for id in mount.with_ids]
    if row["expected_answer"] in ("adapter", "ask") and row["expected_adapter"] not in ("", "shims"):
        assert words == [row["expected_adapter"]]
        step = named[mount.with_ids[0]].step_mm
        assert step == (float(row["expected_step_mm"]) if row["expected_step_mm"] else None) or words == ["special"]
        if row["expected_lift_mm"]:
            assert named[mount.with_ids[0]].lift_mm == float(row["expected_lift_mm"])
    elif row["expected_answer"] != "no":
        assert words == []
    if row["expected_adapter"] == "shims":
        assert mount.note == "tabs_on_tabs"


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_adapter_is_ordered_only_where_it_is_the_answer(row: Row) -> None:
    result = ask(row)
    assert (result.adapter is not None) == (row["expected_adapter"] in {word_for_answer(result)} - {""})
    if row["expected_answer"] in ("no", "nothing"):
        assert result.part_ids == ()
    if result.adapter is not None:
        assert result.part_ids == (result.adapter.id, *result.adapter.uses)


def word_for_answer(result: CompatibilityResult) -> str:
    return "" if result.adapter is None else word_for(result.adapter)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_every_answer_is_told_with_its_figures(row: Row) -> None:
    for check in ask(row).checks:
        if check.rule in MOUNT_RULES:
            told = sentence_for(check)
            assert "{" not in told
            assert "not measured" not in told


def test_the_table_is_whole_and_says_where_it_comes_from() -> None:
    assert [int(row["case"][:2]) for row in ROWS] == list(range(1, 50))
    assert {row["source"] for row in ROWS} == {"common practice, no source"}
    assert {row["expected_answer"] for row in ROWS} == {"nothing", "adapter", "no", "ask"}
