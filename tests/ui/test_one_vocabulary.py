"""The same thing has the same name wherever it is told: in the terminal, on the page and on paper."""

import io

import pytest
from pypdf import PdfReader
from streamlit.testing.v1 import AppTest

from planner import caution_letters, job_card_pdf, marked_outcome, outcome_word
from planner.verdicts import Outcome
from tests.planner.documents.drawing_samples import make_frame
from tests.ui.many_cautions import CAUTIONS, plan_with_many_cautions
from tests.ui.page_builders import words_of
from ui.reports.plan_report import print_plan
from ui.shared.exit_status import ExitStatus, status_of
from ui.shared.outcome_looks import OUTCOME_LOOKS
from ui.shared.plan_in_short import plan_in_short

LETTERS = [*"ABCDEFGHIJKLMNOPQRSTUVWXYZ", "AA", "AB", "AC", "AD"]


def test_cautions_are_lettered_on_past_the_alphabet_those_of_the_whole_job_first() -> None:
    assert caution_letters(plan_with_many_cautions()) == dict(zip(CAUTIONS, LETTERS, strict=True))


def test_the_terminal_tells_each_caution_once_in_full_then_names_it_by_its_letter(
    capsys: pytest.CaptureFixture[str],
) -> None:
    print_plan(plan_with_many_cautions(), is_whole=True)
    told = capsys.readouterr().out
    for caution, letter in zip(CAUTIONS, LETTERS, strict=True):
        assert f"! {letter}  {caution}" in told
        assert told.count(caution) == 1
    assert told.count("[! AC, AD]") == 1
    assert "[! Z]" not in told


def test_the_terminal_in_short_tells_each_caution_once(capsys: pytest.CaptureFixture[str]) -> None:
    print_plan(plan_with_many_cautions())
    told = " ".join(capsys.readouterr().out.split())
    assert [told.count(caution) for caution in CAUTIONS] == [1] * len(CAUTIONS)


def test_paper_tells_each_caution_once_in_full_then_names_it_by_its_letter() -> None:
    card = job_card_pdf(plan=plan_with_many_cautions(), frame=make_frame())
    told = " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(card)).pages).split())
    for caution, letter in zip(CAUTIONS, LETTERS, strict=True):
        assert f"⚠ {letter} {caution}" in told
        assert told.count(caution) == 1
    assert "Do thing 27. ⚠ AC, AD" in told


def test_the_page_tells_each_caution_once_in_full_then_names_it_by_its_letter() -> None:
    def screen() -> None:
        from tests.ui.many_cautions import plan_with_many_cautions
        from ui.page.views.steps_view import show_steps

        show_steps(plan_with_many_cautions())

    page = AppTest.from_function(screen, default_timeout=60).run()
    assert not page.exception
    (warning,) = page.warning
    rows = [row.removeprefix("- ").replace("*", "") for row in warning.value.splitlines()[1:]]
    assert rows == [f"{letter} {caution}" for caution, letter in zip(CAUTIONS[:3], LETTERS[:3], strict=True)]
    told = " ".join(words_of(page).split())
    assert "warning AD Danger number 30." in told
    assert told.count("Danger number 30.") == 1
    assert "27. Do thing 27. warning AC, AD It must be done." in told


def test_terminal_and_page_tell_the_same_plan_in_short(capsys: pytest.CaptureFixture[str]) -> None:
    def screen() -> None:
        from tests.ui.many_cautions import plan_with_many_cautions
        from ui.page.views.verdict_view import show_verdict

        show_verdict(plan_with_many_cautions())

    facts = plan_in_short(plan_with_many_cautions())
    assert [name for name, _ in facts][:5] == [
        "Way",
        "Joint",
        "Feed from",
        "Cut the old line",
        "The new line",
    ]
    print_plan(plan_with_many_cautions())
    in_the_terminal = " ".join(capsys.readouterr().out.split())
    on_the_page = " ".join(words_of(AppTest.from_function(screen, default_timeout=60).run()).split())
    for name, fact in facts:
        assert f"{name} {fact}" in in_the_terminal
        assert f"{name} {fact}" in on_the_page


@pytest.mark.parametrize("outcome", Outcome)
def test_every_outcome_has_a_word_a_mark_and_a_look_of_its_own(outcome: Outcome) -> None:
    assert marked_outcome(outcome).endswith(f" {outcome_word(outcome)}")
    assert len({marked_outcome(other)[0] for other in Outcome}) == len(Outcome)
    assert len(set(OUTCOME_LOOKS.values())) == len(Outcome)


@pytest.mark.parametrize(
    ("outcome", "status"), [(Outcome.FITS, 0), (Outcome.TIGHT, 0), (Outcome.UNKNOWN, 3), (Outcome.NO_FIT, 3)]
)
def test_what_is_not_proven_is_no_plan(outcome: Outcome, status: int) -> None:
    assert status_of(outcome) == status
    assert ExitStatus.BAD_INPUT == 2
