"""`lineplan fit`: the quick question whether things pass a hole side by side.

Typed diameters are exact unless a tolerance for them is told: a caliper reading is a reading, while a hole in a frame
is rarely round and has the shop's tolerance unless its own is told.
"""

import json
import sys
from math import isfinite
from typing import Any

from ui.reports.refusals import refusals_as_sentences
from ui.shared.catalog_choice import CatalogChoice, chosen_catalog, tell_stand_ins
from ui.shared.exit_status import ExitStatus, status_of
from ui.shared.fit_question import FitAnswer, FitQuestion, find_answer, find_problems


def run_fit(question: FitQuestion, choice: CatalogChoice, *, as_json: bool) -> int:
    """Answer the question; returns the exit status."""
    with refusals_as_sentences():
        catalog = chosen_catalog(choice)
        tell_stand_ins(catalog)
        problems = list(find_problems(question, catalog))
        if problems:
            print("\n".join(problems), file=sys.stderr)
            return ExitStatus.BAD_INPUT
        answer = find_answer(question, catalog)
    if as_json:
        print(json.dumps(answer_as_record(answer), indent=2))
    else:
        from ui.reports.fit_report import print_answer

        print_answer(question, answer)
    return status_of(answer.outcome)


def answer_as_record(answer: FitAnswer) -> dict[str, Any]:
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
        "placement": None
        if fit.placement is None
        else [
            {"x_mm": _rounded(x), "y_mm": _rounded(y), "diameter_mm": _rounded(diameter)}
            for (x, y), diameter in zip(fit.placement.centres_mm, fit.placement.diameters_mm, strict=True)
        ],
    }
    if rigid is not None:
        record["longest_rigid_mm"] = _rounded(answer.longest_rigid_mm)
        record["rigid_outcome"] = rigid.outcome.word
        record["motion"] = [
            {"x_mm": _rounded(pose.x_mm), "y_mm": _rounded(pose.y_mm), "tilt_deg": _rounded(pose.tilt_deg)}
            for pose in rigid.motion or ()
        ]
    return record


def _rounded(value: float | None) -> float | None:
    return None if value is None or not isfinite(value) else round(value, 4) + 0.0
