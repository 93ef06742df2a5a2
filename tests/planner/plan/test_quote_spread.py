"""What a job would come to by the time it takes: held to sums done by hand."""

from dataclasses import replace
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from planner import assumption_sentences, rounding_sentence, spread_sentence, time_sentences
from planner.documents.words.quote_wording import ASSUMPTION_SENTENCES
from planner.plan.job_time import JobTime
from planner.plan.quote import Quote
from planner.plan.quote_lines import QuoteLine
from planner.plan.quote_spread import find_total_range
from tests.planner.documents.test_quote_sheet import make_quote


def timed(*, low_min: float, high_min: float, minutes: int = 60, rate: str = "60.00", step: str = "0.01") -> Quote:
    """The sample quote with an hour of labour, so that its total is 25.35 and the labour, with a fifth of tax."""
    labour = QuoteLine(
        kind="labour",
        id="labour",
        name="Labour",
        quantity=Decimal(minutes) / 60,
        unit="h",
        unit_price=Decimal(rate),
        total=Decimal(rate) * minutes / 60,
    )
    sample = make_quote()
    time = JobTime(mean_min=Decimal(minutes), low_min=low_min, high_min=high_min)
    return replace(sample, lines=(*sample.lines, labour), time=time, money_step=Decimal(step))


def test_by_hand() -> None:
    spread = find_total_range(quote=timed(low_min=50.4, high_min=75.5))
    # parts 24.15 + 1.20 = 25.35; 50 min at 60.00 is 50.00, 76 min is 76.00; a fifth on top
    assert (spread.low, spread.high) == (Decimal("90.42"), Decimal("121.62"))


def test_half_a_minute_is_rounded_up_as_the_labour_line_is() -> None:
    assert find_total_range(quote=timed(low_min=49.5, high_min=49.49)).low == Decimal("90.42")
    assert find_total_range(quote=timed(low_min=49.5, high_min=49.49)).high == Decimal("89.22")


def test_time_without_spread_gives_one_amount_and_says_so() -> None:
    quote = timed(low_min=60, high_min=60)
    spread = find_total_range(quote=quote)
    assert spread.low == spread.high == Decimal("102.42")
    assert spread_sentence(quote) == "By the time it takes, the job would come to 102.42 EUR, tax included."


def test_without_labour_time_changes_nothing() -> None:
    spread = find_total_range(quote=make_quote())
    assert spread.low == spread.high == make_quote().total


@given(
    low=st.floats(0, 600),
    more=st.floats(0, 600),
    rate=st.decimals(0, 500, places=2),
    step=st.sampled_from(["0.01", "0.05", "1"]),
)
def test_more_time_never_costs_less_and_amounts_are_whole_coins(
    low: float, more: float, rate: Decimal, step: str
) -> None:
    quote = timed(low_min=low, high_min=low + more, rate=str(rate), step=step)
    spread = find_total_range(quote=quote)
    assert spread.low <= spread.high
    assert (spread.high - spread.low) % Decimal(step) == 0


def test_the_sentences_are_filled_in() -> None:
    quote = timed(low_min=50.4, high_min=75.5)
    assert spread_sentence(quote).startswith("By the time it takes, the job would come to 90.42 to 121.62 EUR")
    assert time_sentences(quote)[0] == "About 60 minutes of work, from 50 to 76 minutes."
    assert "0.01 EUR" in rounding_sentence(quote)
    assert assumption_sentences(quote) == tuple(ASSUMPTION_SENTENCES[key] for key in quote.assumptions)
