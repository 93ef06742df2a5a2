"""How questions follow each other: defaults, what is skipped, what is refused, going back."""

import pytest

from ui.shared.dialogue.questions import (
    LONGEST_ANSWER,
    AnswerRefused,
    Question,
    Script,
    Source,
    read_answer,
    read_choice,
    read_yes,
    walk,
)

COLOURS = (("red", "red as a rose"), ("dark-red", "dark red"), ("blue", "blue"))


def _question(*, default: str | None = None, may_skip: bool = False, key: str = "colour") -> Question:
    return Question(
        key=key,
        asks="Which colour?",
        allowed="red or blue",
        explains="Look at it.",
        reads=lambda typed: read_choice(typed, COLOURS),
        default=default,
        may_skip=may_skip,
        choices=COLOURS,
    )


def _script() -> Script[str]:
    colour = yield _question()
    if colour.value == "blue":
        yes = yield Question(
            key="sure", asks="Sure?", allowed="yes or no", explains="", reads=read_yes, default="no", may_skip=True
        )
        return f"blue {yes.value}"
    return str(colour.value)


@pytest.mark.parametrize(
    ("typed", "word"),
    [("2", "dark-red"), ("red", "red"), ("RED AS A ROSE", "red"), ("dark", "dark-red"), ("rose", "red")],
)
def test_a_choice_by_number_word_or_part_of_its_words(typed: str, word: str) -> None:
    assert read_choice(typed, COLOURS) == word


@pytest.mark.parametrize(("typed", "why"), [("0", ""), ("4", ""), ("green", ""), ("r", "several are called so")])
def test_what_means_no_choice_or_several(typed: str, why: str) -> None:
    with pytest.raises(AnswerRefused, match=f"^{why}$"):
        read_choice(typed, COLOURS)


def test_nothing_typed_takes_the_default_and_says_so() -> None:
    answer = read_answer(_question(default="blue"), "")
    assert (answer.value, answer.source) == ("blue", Source.DEFAULT)
    assert read_answer(_question(default="blue"), " red ").source is Source.TOLD


def test_a_hyphen_skips_what_may_be_skipped_and_nothing_else() -> None:
    skipped = read_answer(_question(default="blue", may_skip=True), "-")
    assert (skipped.value, skipped.is_skipped) == (None, True)
    assert read_answer(_question(may_skip=True), "").is_skipped
    with pytest.raises(AnswerRefused, match="cannot be left out; allowed: red or blue"):
        read_answer(_question(default="blue"), "-")
    with pytest.raises(AnswerRefused, match="cannot be left out; allowed: red or blue"):
        read_answer(_question(), "")


@pytest.mark.parametrize("typed", ["x" * (LONGEST_ANSWER + 1), "red\x1b[2J"])
def test_what_is_no_plain_short_line_is_refused(typed: str) -> None:
    with pytest.raises(AnswerRefused, match="plain words of at most 200 signs"):
        read_answer(_question(), typed)


def test_a_wrong_answer_is_told_with_what_is_allowed_and_asked_again() -> None:
    found = walk(_script, {"colour": "green"})
    assert found.next is not None
    assert (found.next.key, found.refusal) == ("colour", "“green”: allowed: red or blue.")


def test_what_is_asked_hangs_on_what_was_answered_and_going_back_asks_it_again() -> None:
    assert walk(_script, {"colour": "red"}).told == "red"
    found = walk(_script, {"colour": "blue"})
    assert found.next is not None
    assert found.next.key == "sure"
    assert walk(_script, {"colour": "blue", "sure": "yes"}).told == "blue True"
    back = walk(_script, {})
    assert back.next is not None
    assert (back.next.key, back.refusal) == ("colour", "")


def test_a_form_takes_what_stands_in_brackets_and_stops_where_nothing_does() -> None:
    assert walk(_script, {"colour": "blue"}, takes_defaults=True).told == "blue False"
    found = walk(_script, {}, takes_defaults=True)
    assert found.next is not None
    assert (found.next.key, found.answers) == ("colour", ())
