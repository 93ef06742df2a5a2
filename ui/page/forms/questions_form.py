"""A dialogue's questions as a form: answers can be changed, and what hangs on them follows."""

from collections.abc import Callable
from itertools import groupby
from typing import Any, TypeVar

import streamlit as st

from planner import in_markdown as plain
from ui.page import session
from ui.page.forms.trace_form import offer_trace
from ui.page.views.choice_pictures import show_choices
from ui.shared.dialogue.questions import LONGEST_ANSWER, Question, Script, Walk, walk
from ui.shared.opening_text import SHAPES

Told = TypeVar("Told")

FIRST_SIZE = "hole 1 opening"
"""The question below whose hole the shapes are drawn; further holes have them in sight."""


def ask_questions(begin: Callable[[], Script[Told]], *, prefix: str) -> Walk[Told]:
    """Ask everything that can be asked by now: up to the first question without an answer that must have one.

    prefix : what the keys of these fields begin with
    """
    found = walk(begin, _Typed(prefix), takes_defaults=True)
    asked = [answer.question for answer in found.answers] + ([found.next] if found.next else [])
    for _, group in groupby(asked, key=_group):
        with st.container(border=True):
            _show_fields(list(group), found, prefix)
    return found


class _Typed(dict[str, str]):
    """What stands in the fields, by the keys of their questions; an empty field says nothing."""

    def __init__(self, prefix: str) -> None:
        super().__init__()
        self.prefix = prefix

    def get(self, key: str, default: Any = None) -> Any:
        """What was typed or chosen at one question."""
        return session.chosen(f"{self.prefix}{key}") or default


def _show_fields(questions: list[Question], found: Walk[Any], prefix: str) -> None:
    columns: list[Any] = [] if len(questions) > 1 else [st.container()]
    for question in questions:
        columns = columns or [*st.columns(2)]  # in pairs, so that a narrow window keeps the order
        with columns.pop(0):
            _show_field(question, key=f"{prefix}{question.key}")
            if question is found.next and found.refusal:
                st.error(plain(found.refusal), icon=":material/error:")
    if any(question.key == FIRST_SIZE for question in questions):
        st.caption("The shapes a hole may have, by the words they are typed with:")
        show_choices(list(SHAPES), picked=None, key=f"{prefix}shapes")


def _show_field(question: Question, *, key: str) -> None:
    help_text = plain(f"{question.explains} Allowed: {question.allowed}.")
    if question.choices:
        meanings = dict(question.choices)
        st.selectbox(
            plain(question.asks),
            list(meanings),
            index=None,
            placeholder=_shown_default(question),
            key=key,
            format_func=lambda word: meanings[word],
            help=help_text,
        )
    else:
        st.text_input(plain(question.asks), key=key, placeholder=_shown_default(question), help=help_text)
    if question.longest > LONGEST_ANSWER:
        offer_trace(key=key, take=lambda traced: session.put_choices({key: traced.typed}))


def _shown_default(question: Question) -> str:
    """What is taken where nothing is typed, in the words of the choice."""
    if question.default is not None and question.choices:
        return dict(question.choices).get(str(question.reads(question.default)), question.default)
    return question.in_brackets or "must be told"


def _group(question: Question) -> str:
    """Questions of one hole stand together."""
    words = question.key.split()
    return " ".join(words[:2]) if words[0] == "hole" else "frame" if words[0] in _FIRST else "rest"


_FIRST = ("name", "layout", "hand", "holes")
