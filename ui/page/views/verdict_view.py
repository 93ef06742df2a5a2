"""Show a verdict: one sentence, its outcome by word and shape as well as colour, the plan in short, what to do next."""

from collections.abc import Collection, Sequence

import streamlit as st

from planner import (
    Names,
    RoutingPlan,
    advice_to_heed,
    marked_outcome,
    measures_told,
    outcome_word,
    sentence_for,
    verdict_sentence,
    ways_out_told,
    whole_minutes,
)
from planner import in_markdown as plain
from planner.verdicts import Check, Outcome
from ui.page.views.markup import safe, show_markup
from ui.shared.labels import ADVISORY_WORDS
from ui.shared.outcome_looks import OUTCOME_LOOKS
from ui.shared.plan_in_short import chance_row, plan_in_short


def show_outcome(outcome: Outcome, sentence: str) -> None:
    """The answer in a box that tells its outcome: its first sentence large, what follows it below."""
    head, stop, rest = sentence.partition(". ")
    mark = f'<span aria-hidden="true">{marked_outcome(outcome)[0]}</span>'
    below = f"<p>{safe(rest)}</p>" if rest else ""
    heading = f"<h2>{mark} {safe(head + stop.strip())}</h2>"
    show_markup(f'<section class="lp-verdict lp-{outcome.word}" role="status">{heading}{below}</section>')


def show_verdict(plan: RoutingPlan, *, has_next: bool = True, done: Collection[int] = ()) -> None:
    """The answer, the plan in short, and what to do next.

    has_next : whether this plan alone says what is done next; not where it is one of several in one work order
    done : numbers of the steps that are ticked at the bench
    """
    show_outcome(plan.outcome, verdict_sentence(plan))
    if plan.runs:
        rows = (
            f"<dt>{safe(title)}</dt><dd>{safe(words)}</dd>"
            for title, words in [*plan_in_short(plan), *chance_row(plan)]
        )
        show_markup(f'<dl class="lp-facts">{"".join(rows)}</dl>')
    if not has_next and not ways_out_told(plan):
        return
    about, told = _next_action(plan, done)
    said = "".join(f"<p>{safe(words)}</p>" for words in told)
    show_markup(f'<div class="lp-next"><p class="lp-about">{safe(about)}</p>{said}</div>')


def _next_action(plan: RoutingPlan, done: Collection[int]) -> tuple[str, Sequence[str]]:
    """What it is about, and what the hands do."""
    if ways_out := ways_out_told(plan):
        return "What would change it", ways_out
    if measures := measures_told(plan):
        first, *others = measures
        more = f", the first of {len(others) + 1} measures" if others else ""
        return f"Next: measure first{more}", [first.reason]
    if not plan.steps:
        return "Next", ["Settle what is told below."]
    n = next((n for n in range(1, len(plan.steps) + 1) if n not in done), None)
    if n is None:
        return f"All {len(plan.steps)} steps are done", ["Fill in the hand-over record before it is given back."]
    minutes = f", about {whole_minutes(plan.options[0].work_min)} min in all" if plan.options else ""
    return f"Next: step {n} of {len(plan.steps)}{minutes}", [plan.steps[n - 1].text]


def show_open_questions(plan: RoutingPlan, *, has_next: bool = True) -> None:
    """What is to be measured beside the next thing, settled and known; nothing where there is nothing.

    has_next : whether the next thing was told
    """
    is_told = has_next and not ways_out_told(plan)
    for item in measures_told(plan)[1 if is_told else 0 :]:
        st.markdown(f"**Measure first:** {plain(item.reason)}")
    advice = advice_to_heed(plan)
    if advice:
        st.markdown("**To settle and to know:**")
        lines = (check_line(check, plan.names, word=ADVISORY_WORDS[check.outcome]) for check in advice)
        st.markdown("\n".join(f"- {line}" for line in lines))


def check_line(check: Check, names: Names, *, word: str = "") -> str:
    """One answer as a line of a paragraph: outcome by icon and word, then the sentence.

    word : what the outcome asks for here; "" for its usual word
    """
    sentence = plain(sentence_for(check, names=names))
    return f"{OUTCOME_LOOKS[check.outcome].page_icon} **{word or outcome_word(check.outcome)}:** {sentence}"
