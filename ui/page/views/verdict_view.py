"""Show a verdict: one sentence, its outcome by word and shape as well as colour, and the plan in short."""

import streamlit as st

from planner import Names, RoutingPlan, outcome_word, sentence_for, verdict_sentence, way_out_sentences
from planner import in_markdown as plain
from planner.verdicts import Check, Outcome
from ui.shared.labels import ADVISORY_WORDS
from ui.shared.outcome_looks import OUTCOME_LOOKS
from ui.shared.plan_in_short import plan_in_short

_BOXES = {Outcome.FITS: st.success, Outcome.TIGHT: st.warning, Outcome.UNKNOWN: st.info, Outcome.NO_FIT: st.error}


def show_outcome(outcome: Outcome, sentence: str) -> None:
    """One sentence in a box that tells its outcome."""
    _BOXES[outcome](plain(sentence), icon=OUTCOME_LOOKS[outcome].page_icon)


def show_verdict(plan: RoutingPlan) -> None:
    """The answer in one sentence, then the plan in short."""
    show_outcome(plan.outcome, verdict_sentence(plan))
    for item in plan.measure_first:
        st.markdown(f"**Measure first:** {plain(item.reason)}")
    ways_out = way_out_sentences(plan)
    if ways_out:
        st.markdown("**What would change it:**\n" + "\n".join(f"- {plain(sentence)}" for sentence in ways_out))
    if plan.runs:
        st.markdown("  \n".join(f"**{title}:** {plain(words)}" for title, words in plan_in_short(plan)))
    if plan.advisories:
        st.markdown("**To settle and to know:**")
        lines = (check_line(check, plan.names, word=ADVISORY_WORDS[check.outcome]) for check in plan.advisories)
        st.markdown("\n".join(f"- {line}" for line in lines))


def check_line(check: Check, names: Names, *, word: str = "") -> str:
    """One answer as a line of a paragraph: outcome by icon and word, then the sentence.

    word : what the outcome asks for here; "" for its usual word
    """
    sentence = plain(sentence_for(check, names=names))
    return f"{OUTCOME_LOOKS[check.outcome].page_icon} **{word or outcome_word(check.outcome)}:** {sentence}"
