"""Every pair of parts in the table: right, wrong and unmeasured."""

import csv
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

from planner.documents.words.check_words import sentence_for
from planner.fit.brake_end import check_brake_end
from planner.fit.clamp_fit import check_lever_clamp
from planner.fit.conversion_fit import check_conversion, find_conversion
from planner.fit.fluid_fit import check_fluid_of_job
from planner.fit.hose_end_fit import check_line_end
from planner.fit.hub_fit import check_hub
from planner.fit.lever_side import ask_lever_side
from planner.fit.line_kind_fit import check_line_kind
from planner.fit.mount_fit import check_mount
from planner.fit.rotor_fit import check_rotor_in_caliper, check_rotor_in_frame
from planner.fit.thread_fit import check_threads
from planner.parts import BrakeMount, FrameEnd, HubKind, LineEnd, LineKind, MountKind, MovesWith, NewLine, OldLine
from planner.rules import BrakeRule, PartRule
from planner.verdicts import Check
from tests.builders import make_limits
from tests.planner.fit.compatibility_samples import (
    ADAPTERS,
    HOSE_FLUIDS,
    make_brake,
    make_fitting,
    make_frame,
    make_job,
    make_line,
    make_new,
    make_old,
    make_port,
)

TABLE = Path(__file__).parents[2] / "published_values/compatibility.csv"
ROWS = list(csv.DictReader(TABLE.open(encoding="utf-8")))
Row = dict[str, str]


def _number(text: str) -> float | None:
    return float(text) if text else None


def _mount(row: Row) -> Check:
    mount = row["first"].split()
    likely_mm = float(mount[2]) if len(mount) > 2 else None
    fit = check_mount(
        frame_mount=BrakeMount(mount=MountKind(mount[0]), rotor_native_mm=_number(row["third"]), rotor_min_mm=likely_mm)
        if mount
        else None,
        end=FrameEnd.REAR,
        brake=make_brake(mount=MountKind(row["second"]) if row["second"] else None),
        rotor_mm=_number(row["fourth"]),
        adapters=ADAPTERS,
        limits=make_limits(match_lift_mm=0.5, tab_base_front_mm=160, tab_base_rear_mm=140),
    )
    assert (fit.adapter is not None) is (row["expected_note"] == "with_adapter")
    return fit.checks[0]


def _rotor_size(row: Row) -> Check:
    limits = BrakeMount(mount=MountKind.POST, rotor_min_mm=_number(row["first"]), rotor_max_mm=_number(row["second"]))
    return check_rotor_in_frame(rotor_mm=_number(row["third"]), frame_mount=limits)


def _caliper_rotor(row: Row) -> Check | None:
    brake = make_brake(rotors_mm=(_number(row["first"]), _number(row["second"])))
    return check_rotor_in_caliper(rotor_mm=_number(row["third"]), brake=brake)


def _brake_end(row: Row) -> Check | None:
    moves_with = MovesWith(row["second"]) if row["second"] else None
    brake = make_brake(made_for=FrameEnd(row["first"]) if row["first"] else None)
    return check_brake_end(job=make_job(frame=make_frame(caliper_moves_with=moves_with), new=make_new(brake=brake)))


def _hub(row: Row) -> Check:
    hub, rotor = (HubKind(text) if text else None for text in (row["first"], row["second"]))
    return check_hub(hub=hub, rotor=rotor)


def _lever_clamp(row: Row) -> Check:
    tolerance_mm = None if row["third"] == "not_told" else 0.3
    return check_lever_clamp(
        clamp_mm=_number(row["first"]), bar_mm=_number(row["second"]), clamp_tolerance_mm=tolerance_mm
    )


def _fluid(row: Row) -> Check | None:
    old: OldLine | None = make_old()
    if row["first"] == "none":
        old = None
    elif row["first"] == "cable":
        old = make_old(kind=LineKind.BRAKE_HOUSING)
    elif row["first"] != "bare hose":
        old = make_old(brake=make_brake(fluid=HOSE_FLUIDS.get(row["first"]), id="old"))
    is_bare = row["second"] == "bare hose"
    new: NewLine = make_new(brake=None if is_bare else make_brake(fluid=HOSE_FLUIDS.get(row["second"])))
    return check_fluid_of_job(old=old, new=new)


def _hose_end_outer(row: Row) -> Check:
    end = LineEnd(fitting=make_fitting(line_outer_mm=_number(row["second"])))
    line = make_line(outer_mm=float(row["first"]))
    return check_line_end(line=line, end=end, bore_tolerance_mm=0.1)[0]


def _hose_end_bore(row: Row) -> Check:
    end = LineEnd(fitting=make_fitting(line_bore_mm=_number(row["second"])))
    line = make_line(bore_mm=_number(row["first"]))
    tolerance_mm = None if row["third"] == "not_told" else 0.1
    return check_line_end(line=line, end=end, bore_tolerance_mm=tolerance_mm)[1]


def _thread(row: Row) -> Check:
    return check_threads(nut=row["first"], body=row["second"])


def _port_admits(row: Row) -> Check:
    port = make_port("port", admits=tuple(LineKind(kind) for kind in row["second"].split()))
    (check,) = check_line_kind(line=make_line(LineKind(row["first"])), ports=[port])
    return check


def _conversion(row: Row) -> Check | None:
    kind = LineKind(row["second"])
    brake = make_brake(kind=kind) if row["third"] else None
    job = make_job(old=make_old(kind=LineKind(row["first"])), new=make_new(kind=kind, brake=brake))
    return check_conversion(job=job, conversion=find_conversion(job=job, route=None))


def _lever_side(row: Row) -> Check | None:
    moves_with = MovesWith(row["second"]) if row["second"] else None
    frame = make_frame(lever_y_mm=float(row["first"]), caliper_moves_with=moves_with)
    return ask_lever_side(job=make_job(frame=frame, new=make_new(brake=make_brake())))


ASK: dict[str, Callable[[Row], Check | None]] = {
    "mount": _mount,
    "rotor_size": _rotor_size,
    "caliper_rotor": _caliper_rotor,
    "brake_end": _brake_end,
    "hub": _hub,
    "lever_clamp": _lever_clamp,
    "fluid": _fluid,
    "hose_end_outer": _hose_end_outer,
    "hose_end_bore": _hose_end_bore,
    "thread": _thread,
    "port_admits": _port_admits,
    "conversion": _conversion,
    "lever_side": _lever_side,
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_pair_of_parts_gets_its_answer(row: Row) -> None:
    check = ASK[row["rule"]](row)
    if not row["expected_outcome"]:
        assert check is None
        return
    assert check is not None
    assert (check.rule, check.outcome.word, check.note) == (
        row["rule"],
        row["expected_outcome"],
        row["expected_note"],
    )
    sentence = sentence_for(check)
    assert sentence
    assert "{" not in sentence


def test_table_is_large_and_asks_every_rule_for_right_wrong_and_unmeasured() -> None:
    assert len(ROWS) >= 60
    assert len({row["case"] for row in ROWS}) == len(ROWS)
    outcomes = Counter((row["rule"], row["expected_outcome"]) for row in ROWS)
    for rule in ("mount", "rotor_size", "hub", "lever_clamp", "hose_end_outer", "thread"):
        assert all(outcomes[rule, outcome] for outcome in ("fits", "no_fit", "unknown")), rule
    assert all(row["source"] for row in ROWS)


def test_every_sentence_is_reached_by_the_table_or_named_here() -> None:
    reached = {(row["rule"], row["expected_outcome"], row["expected_note"]) for row in ROWS}
    elsewhere = {
        ("mount", "unknown", "end_not_known"),  # test_brake_end
        ("mount", "unknown", "tab_base_not_known"),  # test_brake_end
        ("mount", "unknown", "ask_seldom_sold"),  # the table of mounts, as are the four after it
        ("mount", "unknown", "ask_maker_allows"),
        ("mount", "unknown", "ask_piece_in_hand"),
        ("mount", "unknown", "other_native"),
        ("mount", "no_fit", "no_plate"),
        ("rotor_size", "fits", "is_native"),  # test_brake_end
        ("brake_end", "unknown", "is_rear_brake_meant"),  # test_brake_end
        ("adapter_lift", "fits", "half_the_change"),
        ("adapter_lift", "no_fit", "lift_off"),
        ("adapter_lift", "unknown", "lift_not_measured"),
        ("adapter_lift", "unknown", "tolerance_not_known"),
        ("hose_end_outer", "fits", "sits_already"),
        ("hose_end_outer", "unknown", "line_not_measured"),
        ("conversion", "fits", "hydraulic_to_electric"),
        ("conversion", "fits", "electric_to_hydraulic"),
    }
    told = {(rule.value, outcome.word, note) for rule in (*BrakeRule, *PartRule) for outcome, note in rule.row.says}
    assert told - elsewhere == {row for row in reached if row[1]}
