"""Questions asked one after the other, for the terminal and the page alike: what is asked, and what an answer says.

A script is a generator that yields questions and is sent answers, so that what is asked next may hang on what was
answered. It keeps nothing: from the same typed words it asks the same again, which is how one goes back.
"""

from collections.abc import Callable, Generator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, Generic, TypeVar

from planner import printable_line

Told = TypeVar("Told")

LONGEST_ANSWER = 200
"""Signs; no answer said at the bench is longer."""

LONGEST_OUTLINE = 12_000
"""Signs; as many corners as an outline may have."""

SKIP, BACK, EXPLAIN = "-", "back", "?"
"""Words that answer no question: leave it, go one back, say more."""


class AnswerRefused(ValueError):  # noqa: N818  (named for what happened)
    """What was typed is no answer to the question; the message is one sentence on what is allowed."""


class Source(StrEnum):
    """Where an answer comes from."""

    TOLD = "told"
    DEFAULT = "default"
    SKIPPED = "skipped"
    PHOTO = "photo"
    """From a photograph, however it was taken."""

    SQUARE_PHOTO = "square photo"
    """From one that was taken squarely and from afar."""

    CORRECTED_PHOTO = "corrected photo"
    """From one taken at a slant that both wheels put right, well enough."""

    @property
    def mark(self) -> str:
        """What stands behind words that come from a photograph."""
        return f"({self})"


PHOTOS = (Source.PHOTO, Source.SQUARE_PHOTO, Source.CORRECTED_PHOTO)


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question.

    key : its name in the answers, such as "hole 1 tilt"
    asks : the question
    allowed : what an answer looks like, for the sentence that refuses another
    explains : what to measure with which tool and how well
    reads : the value of typed words; raises AnswerRefused
    default : the words that are taken where none are typed; None where there are none
    may_skip : whether it may be left unknown
    choices : words that can be typed and what each means, where there are only these
    longest : signs that an answer may have
    takes_photo : whether it may be found on a photograph, which is said behind it
    """

    key: str
    asks: str
    allowed: str
    explains: str
    reads: Callable[[str], Any]
    default: str | None = None
    may_skip: bool = False
    choices: tuple[tuple[str, str], ...] = ()
    longest: int = LONGEST_ANSWER
    takes_photo: bool = False

    @property
    def in_brackets(self) -> str:
        """What is taken where nothing is typed; "" where something must be."""
        if self.default is not None:
            return self.default
        return SKIP if self.may_skip else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What was answered.

    value : as read; None where it was skipped
    words : as typed, or the default's
    """

    question: Question
    value: Any
    words: str
    source: Source

    @property
    def is_skipped(self) -> bool:
        """Whether it was left unknown."""
        return self.source is Source.SKIPPED


Script = Generator[Question, Answer, Told]


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk(Generic[Told]):
    """How far one came.

    answers : given so far, in order
    next : what is asked now; None where all is answered
    refusal : why the words typed for it are no answer; "" where none were typed
    told : what the script makes of all the answers; None before that
    """

    answers: tuple[Answer, ...]
    next: Question | None
    refusal: str
    told: Told | None


def read_answer(question: Question, typed: str) -> Answer:
    """The answer that typed words give.

    Raises AnswerRefused with a sentence that says what is allowed.
    """
    words = " ".join(typed.split())
    if len(words) > question.longest or printable_line(words) != words:
        raise AnswerRefused(f"plain words of at most {question.longest} signs are wanted: {question.allowed}.")
    if words == SKIP or (not words and question.default is None):
        if not question.may_skip:
            raise AnswerRefused(f"This one cannot be left out; allowed: {question.allowed}.")
        return Answer(question=question, value=None, words=SKIP, source=Source.SKIPPED)
    source = Source.TOLD if words else Source.DEFAULT
    words = words or question.default or ""
    read = words
    if question.takes_photo and (found := next((one for one in PHOTOS if words.endswith(one.mark)), None)):
        source, read = found, words.removesuffix(found.mark).rstrip()
    try:
        return Answer(question=question, value=question.reads(read), words=words, source=source)
    except AnswerRefused as refused:
        why = f"{refused}; " if str(refused) else ""
        shown = words if len(words) <= LONGEST_ANSWER else f"{words[:LONGEST_ANSWER]}…"
        raise AnswerRefused(f"“{shown}”: {why}allowed: {question.allowed}.") from refused


def walk(begin: Callable[[], Script[Told]], typed: Mapping[str, str], *, takes_defaults: bool = False) -> Walk[Told]:
    """Ask from the start, with the words typed so far.

    typed : by the questions' keys
    takes_defaults : whether a question nobody typed at counts as answered where it has a default or may be skipped
    """
    script, answers = begin(), list[Answer]()
    try:
        question = next(script)
        while True:
            words = typed.get(question.key)
            if words is None and not (takes_defaults and question.in_brackets):
                return Walk(answers=tuple(answers), next=question, refusal="", told=None)
            try:
                answer = read_answer(question, words or "")
            except AnswerRefused as refused:
                told = str(refused) if words else ""
                return Walk(answers=tuple(answers), next=question, refusal=told, told=None)
            answers.append(answer)
            question = script.send(answer)
    except StopIteration as end:
        return Walk(answers=tuple(answers), next=None, refusal="", told=end.value)


def read_choice(words: str, choices: tuple[tuple[str, str], ...]) -> str:
    """The word of one choice: by its number, by itself, or by words that only its meaning has.

    Raises AnswerRefused where none or several are meant.
    """
    asked = words.casefold()
    if asked.isdecimal() and 1 <= int(asked) <= len(choices):
        return choices[int(asked) - 1][0]
    exact = [word for word, meaning in choices if asked in (word.casefold(), meaning.casefold())]
    found = exact or [word for word, meaning in choices if _has_words(meaning.casefold(), asked)]
    if len(found) == 1:
        return found[0]
    raise AnswerRefused("several are called so" if found else "")


def _has_words(meaning: str, asked: str) -> bool:
    return all(word in meaning for word in asked.split())


def choices_listed(choices: tuple[tuple[str, str], ...]) -> str:
    """All of them in a row, numbered."""
    return ", ".join(f"{number} {meaning}" for number, (_, meaning) in enumerate(choices, start=1))


def read_yes(words: str) -> bool:
    """Yes or no.

    Raises AnswerRefused for anything else.
    """
    if words.casefold() in ("yes", "y"):
        return True
    if words.casefold() in ("no", "n"):
        return False
    raise AnswerRefused("")
