"""Show a verdict: one sentence, its outcome by word and shape as well as colour, and the plan in short."""

from typing import Any

import streamlit as st

from planner import RoutingPlan, end_name, millimetres, outcome_word, pull_sentence, sentence_for, verdict_sentence
from planner import in_markdown as plain
from planner.parts import Job
from planner.verdicts import Check, Outcome
from ui.shared.labels import ADVISORY_WORDS, labels_of
from ui.shared.outcome_looks import OUTCOME_LOOKS

_BOXES = {Outcome.FITS: st.success, Outcome.TIGHT: st.warning, Outcome.UNKNOWN: st.info, Outcome.NO_FIT: st.error}
_NEARLY_ALWAYS = 0.999


def show_outcome(outcome: Outcome, sentence: str) -> None:
    """One sentence in a box that tells its outcome."""
    _BOXES[outcome](plain(sentence), icon=OUTCOME_LOOKS[outcome].page_icon)


def show_verdict(plan: RoutingPlan, job: Job) -> None:
    """The answer in one sentence, then the plan in short."""
    show_outcome(plan.outcome, verdict_sentence(plan, labels=labels_of(job)))
    for item in plan.measure_first:
        st.markdown(f"**Measure first:** {plain(item.place_id)}, {plain(item.what)}. {plain(item.reason)}")
    if plan.route:
        st.markdown("  \n".join(f"**{title}:** {plain(words)}" for title, words in _in_short(plan)))
    if plan.advisories:
        st.markdown("**To settle and to know:**")
        lines = (check_line(check, labels_of(job), word=ADVISORY_WORDS[check.outcome]) for check in plan.advisories)
        st.markdown("\n".join(f"- {line}" for line in lines))


def _in_short(plan: RoutingPlan) -> list[tuple[str, str]]:
    cut = end_name(plan, plan.cut_old_at) if plan.cut_old_at else "nothing to cut"
    rows = [
        ("Way", " → ".join(plan.route)),
        ("Joint", plan.method_name),
        ("Feed from", end_name(plan, plan.feed_from)),
        ("Cut the old line at", cut),
    ]
    if plan.lengths is not None:
        rows.append(("Cut the new line to", _length_words(plan.lengths)))
    if plan.joint is not None:
        stiff = f"{plan.joint.thing.rigid_length_mm:.0f} mm of it stiff" if plan.joint.thing.rigid_length_mm else "soft"
        rows.append(("Joint size", f"{millimetres(plan.joint.thing.diameter_mm)} across, {stiff}"))
        rows.append(("Pulling", pull_sentence(plan.joint)))
    if plan.fit_chance is not None:
        rows.append(
            ("Chance that all passes", f"{chance_words(plan.fit_chance)}, sizes varying within their tolerances")
        )
    return rows


def chance_words(chance: float) -> str:
    """A chance in percent; a certainty is never made out of rounding."""
    if chance > _NEARLY_ALWAYS:
        return "more than 99.9 %"
    return "less than 0.1 %" if chance < 1 - _NEARLY_ALWAYS else f"{100 * chance:.1f} %"


def _length_words(lengths: Any) -> str:
    told = f"{lengths.cut_mm:.0f} mm"
    if lengths.supplied_mm is None or lengths.spare_mm is None:
        return f"{told}; the supplied length was not told"
    spare = f"{abs(lengths.spare_mm):.0f} mm " + ("too short" if lengths.spare_mm < 0 else "to spare")
    return f"{told}; {lengths.supplied_mm:.0f} mm supplied, {spare}"


def check_line(check: Check, labels: dict[str, str], *, word: str = "") -> str:
    """One answer as a line of a paragraph: outcome by icon and word, then the sentence.

    word : what the outcome asks for here; "" for its usual word
    """
    sentence = plain(sentence_for(check, labels=labels))
    return f"{OUTCOME_LOOKS[check.outcome].page_icon} **{word or outcome_word(check.outcome)}:** {sentence}"
