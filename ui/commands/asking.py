"""Questions asked in the terminal, one line each: answers are read until all are told, or the input ends."""

import sys
from collections.abc import Callable, Iterable
from typing import TypeVar

from ui.shared.dialogue.questions import BACK, EXPLAIN, AnswerRefused, Question, Script, read_answer, walk

Told = TypeVar("Told")

HOW_TO_ANSWER = "Enter takes what stands in brackets; ? says more, - leaves it unknown, back goes one question back."
MOST_IN_A_LINE = 7


class DialogueStopped(Exception):  # noqa: N818  (named for what happened)
    """The input ended, or somebody stopped it, before all was told."""


def ask_all(begin: Callable[[], Script[Told]], *, wrong: Callable[[Told], Iterable[str]]) -> Told:
    """Ask until everything is told and nothing is wrong with the whole.

    wrong : what is wrong with everything told, in sentences; the last question is asked again then

    Raises DialogueStopped at the end of the input, or where somebody presses Ctrl+C.
    """
    try:
        return _ask_until_told(begin, wrong)
    except KeyboardInterrupt:  # wherever it comes: a question may have been printed and not yet waited for
        print()
        raise DialogueStopped from None


def _ask_until_told(begin: Callable[[], Script[Told]], wrong: Callable[[Told], Iterable[str]]) -> Told:
    typed: dict[str, str] = {}
    while True:
        found = walk(begin, typed)
        if found.next is not None:
            _ask(found.next, typed)
            continue
        assert found.told is not None, "a script that ends tells something"
        problems = list(wrong(found.told))
        if not problems:
            return found.told
        print("\n".join(["Together, that cannot be:", *problems]))
        typed.popitem()


def _ask(question: Question, typed: dict[str, str]) -> None:
    """Read one line, and take it as an answer, a wish to go back or to be told more, or say why it is none."""
    _print_choices(question)
    bracket = f" [{question.in_brackets}]" if question.in_brackets else ""
    words = _read_line(f"{question.asks}{bracket} ")
    if words == EXPLAIN:
        print(f"  {question.explains} Allowed: {question.allowed}.")
    elif words.casefold() == BACK:
        if typed:
            typed.popitem()
        else:
            print("  This is the first question.")
    else:
        try:
            read_answer(question, words)
        except AnswerRefused as refused:
            print(f"  {refused}")
        else:
            typed[question.key] = words


def _print_choices(question: Question) -> None:
    meanings = [f"{number} {meaning}" for number, (_, meaning) in enumerate(question.choices, start=1)]
    if len(meanings) <= MOST_IN_A_LINE:
        print("  ".join(meanings), end="\n" if meanings else "")
    else:
        print("\n".join(meanings))


def _read_line(prompt: str) -> str:
    print(prompt, end="", flush=True)
    try:
        line = sys.stdin.readline()
    except UnicodeDecodeError:
        return "\N{REPLACEMENT CHARACTER}"
    if not line:
        print()
        raise DialogueStopped
    return line.strip()
