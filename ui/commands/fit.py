"""`lineplan fit`: the quick question whether things pass a hole side by side, and its inverse.

Typed diameters are exact unless a tolerance for them is told: a caliper reading is a reading, while a hole in a frame
is rarely round and has the shop's tolerance unless its own is told.
"""

import json
import sys
from dataclasses import replace
from math import isfinite
from typing import Any

from planner.verdicts import Check, Outcome, Placement, Thing, worst_of
from ui.reports.refusals import refusals_as_sentences
from ui.shared.catalog_choice import CatalogChoice, chosen_catalog, tell_stand_ins
from ui.shared.exit_status import ExitStatus, status_of
from ui.shared.fit_question import FitAnswer, FitQuestion, find_answer, find_problems
from ui.shared.joint_asked import JointAsked, check_joint_asked, find_joint_problems, thing_of_joint
from ui.shared.opening_text import as_said
from ui.shared.room_asked import RoomAnswer, find_room, find_room_problems


def run_fit(question: FitQuestion, asked: JointAsked | None, choice: CatalogChoice, *, as_json: bool) -> int:
    """Answer the question, with a joint in place of its size where one is asked about; returns the exit status."""
    with refusals_as_sentences():
        catalog = chosen_catalog(choice)
        tell_stand_ins(catalog)
        against: tuple[Check, ...] = ()
        problems = [] if asked is None else list(find_joint_problems(asked, catalog))
        if asked is not None and not problems:
            against = check_joint_asked(asked, catalog)
            if not against:
                question = _with_joint(question, thing_of_joint(asked, catalog))
        problems += [*find_problems(question, catalog, has_joint=asked is not None), *find_room_problems(question)]
        question = replace(question, opening_text=as_said(question.opening_text))
        if problems:
            print("\n".join(problems), file=sys.stderr)
            return ExitStatus.BAD_INPUT
        if against:
            return _tell_no_joint(against, as_json=as_json)
        if question.smallest_text is not None or question.asks_largest:
            return _tell_room(question, find_room(question, catalog), as_json=as_json)
        return _tell_fit(question, find_answer(question, catalog), as_json=as_json)


def _with_joint(question: FitQuestion, joint: Thing) -> FitQuestion:
    """The joint goes first; behind a bore it is asked with its own stiff length, where none was typed."""
    rigid_mm = question.rigid_length_mm
    if question.bore_mm is not None and rigid_mm is None and joint.rigid_length_mm > 0:
        rigid_mm = joint.rigid_length_mm
    return replace(question, joint=joint, rigid_length_mm=rigid_mm)


def _tell_no_joint(against: tuple[Check, ...], *, as_json: bool) -> int:
    outcome = worst_of(against, of_nothing=Outcome.UNKNOWN)
    if as_json:
        checks = [{"rule": check.rule, "outcome": check.outcome.word, "with": check.with_ids} for check in against]
        print(json.dumps({"outcome": outcome.word, "joint": None, "checks": checks}, indent=2))
    else:
        from ui.reports.fit_report import print_no_joint

        print_no_joint(outcome, against)
    return status_of(outcome)


def _tell_room(question: FitQuestion, answer: RoomAnswer, *, as_json: bool) -> int:
    if as_json:
        print(json.dumps(room_as_record(question, answer), indent=2))
    else:
        from ui.reports.room_report import print_room

        print_room(question, answer)
    return status_of(Outcome.NO_FIT if answer.size_mm is None else Outcome.FITS)


def _tell_fit(question: FitQuestion, answer: FitAnswer, *, as_json: bool) -> int:
    if as_json:
        print(json.dumps(answer_as_record(question, answer), indent=2))
    else:
        from ui.reports.fit_report import print_answer

        print_answer(question, answer)
    return status_of(answer.outcome)


def answer_as_record(question: FitQuestion, answer: FitAnswer) -> dict[str, Any]:
    """The answer as plain values for `--json`."""
    fit, rigid = answer.side_by_side, answer.rigid
    record: dict[str, Any] = {
        "outcome": answer.outcome.word,
        "clearance_mm": _rounded(fit.clearance_mm),
        "worst_clearance_mm": _rounded(fit.worst_clearance_mm),
        "available_mm": _rounded(fit.available_mm),
        "fit_class": fit.fit_class,
        "proof": fit.proof,
        "band_mm": None if fit.band_mm is None else [_rounded(edge_mm) for edge_mm in fit.band_mm],
        "placement": _placed(fit.placement),
    }
    if question.joint is not None:
        record["joint"] = _joint_as_record(question.joint)
    if answer.wedge is not None:
        record["can_wedge_at_ratio"] = _rounded(answer.wedge.ratio)
    if rigid is not None:
        record["longest_rigid_mm"] = _rounded(answer.longest_rigid_mm)
        record["rigid_outcome"] = rigid.outcome.word
        record["motion"] = [
            {"x_mm": _rounded(pose.x_mm), "y_mm": _rounded(pose.y_mm), "tilt_deg": _rounded(pose.tilt_deg)}
            for pose in rigid.motion or ()
        ]
    return record


def room_as_record(question: FitQuestion, answer: RoomAnswer) -> dict[str, Any]:
    """What was sought, as plain values for `--json`."""
    record: dict[str, Any] = {"outcome": (Outcome.NO_FIT if answer.size_mm is None else Outcome.FITS).word}
    if answer.asks_opening:
        record |= {"smallest_mm": _rounded(answer.size_mm), "none_below_mm": _rounded(answer.proven_mm)}
    else:
        record |= {"largest_item_mm": _rounded(answer.size_mm), "none_above_mm": _rounded(answer.proven_mm)}
    record |= {
        "running_clearance_mm": _rounded(answer.running_clearance_mm),
        "tolerance_mm": _rounded(answer.tolerance_mm),
        "placement": _placed(answer.placement),
    }
    if question.joint is not None:
        record["joint"] = _joint_as_record(question.joint)
    if answer.wedge is not None:
        record["can_wedge_at_ratio"] = _rounded(answer.wedge.ratio)
    return record


def _joint_as_record(joint: Thing) -> dict[str, Any]:
    return {"diameter_mm": _rounded(joint.diameter_mm), "rigid_length_mm": _rounded(joint.rigid_length_mm)}


def _placed(placement: Placement | None) -> list[dict[str, float | None]] | None:
    if placement is None:
        return None
    return [
        {"x_mm": _rounded(x), "y_mm": _rounded(y), "diameter_mm": _rounded(diameter)}
        for (x, y), diameter in zip(placement.centres_mm, placement.diameters_mm, strict=True)
    ]


def _rounded(value: float | None) -> float | None:
    return None if value is None or not isfinite(value) else round(value, 4) + 0.0
