"""The quote on paper, and the parts as CSV."""

import csv
from dataclasses import replace
from decimal import Decimal
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.documents.paper.quote_sheet import quote_pdf
from planner.documents.records.parts_csv import parts_csv
from planner.documents.words.printable import FORMULA_SIGNS, in_csv
from planner.documents.words.quote_sentences import short_quantity
from planner.documents.words.quote_wording import ASSUMPTION_SENTENCES
from planner.parts import JobEnd
from planner.plan.job_time import JobTime
from planner.plan.quote import Alternative, Quote
from planner.plan.quote_lines import QuoteLine
from planner.plan.routing_plan import PartNeeded, Remark
from planner.verdicts import Outcome
from tests.planner.documents.drawing_samples import make_plan
from tests.planner.documents.paper_reading import fonts_of, page_sizes_mm, page_texts, text_of


def line(name: str, price: str | None, quantity: str = "1", unit: str = "piece") -> QuoteLine:
    each = None if price is None else Decimal(price)
    total = None if each is None else (each * Decimal(quantity)).quantize(Decimal("0.01"))
    return QuoteLine(
        kind="part", id=name.lower(), name=name, quantity=Decimal(quantity), unit=unit, unit_price=each, total=total
    )


def make_quote(**changes: object) -> Quote:
    """A quote with something under every heading."""
    quote = Quote(
        job_id="swap",
        job_title="Rear swap",
        lines=(line("Hose", "14.00", "1.725", "m"), line("Olive", "1.20"), line("Mystery", None)),
        subtotal=Decimal("25.35"),
        tax_ratio=Decimal("0.20"),
        tax=Decimal("5.07"),
        total=Decimal("30.42"),
        currency="EUR",
        money_step=Decimal("0.01"),
        rounding_rule="each_line_half_up",
        unpriced=("Mystery",),
        time=JobTime(mean_min=Decimal("112.5"), low_min=101.5, high_min=124.4),
        valid_days=30,
        assumptions=("nothing_hidden_is_broken", "measure_first"),
        alternatives=(
            Alternative(
                method_id="spoke-20",
                method_name="Spoke link 2.0",
                feed_from=JobEnd.FROM,
                outcome=Outcome.FITS,
                more_min=-12.0,
                more_money=Decimal("-12.00"),
                holds_n=0.0,
                remark=Remark.HOLDS_NOTHING,
            ),
        ),
    )
    return replace(quote, **changes)  # type: ignore[arg-type]


def test_everything_a_customer_asks_is_on_the_quote() -> None:
    text = text_of(
        quote_pdf(
            quote=make_quote(),
            shop_name="Bench at the canal",
            for_whom="Łucja Żółć → Ωmega",
            number="00007",
            date_text="14 March 2031",
            valid_until_text="13 April 2031",
        )
    )
    for wanted in (
        "Quote 00007",
        "Bench at the canal · for Łucja Żółć → Ωmega · 14 March 2031",
        "Rear swap · stands until 13 April 2031",
        "Hose 1.725 m 14.00 24.15",
        "Olive 1 × 1.20 1.20",
        "Mystery 1 × not priced not priced",
        "Sum 25.35",
        "Tax, 20 % 5.07",
        "To pay, without what is not priced 30.42 EUR",
        "missing above: Mystery.",
        "About 113 minutes of work, from 102 to 124 minutes.",
        ASSUMPTION_SENTENCES["nothing_hidden_is_broken"],
        "Spoke link 2.0: 12 min less, 12.00 EUR less, holds nothing: push only",
        "Each line is rounded to 0.01 EUR",
    ):
        assert wanted in text


def test_a_quote_without_a_last_day_tells_how_long_it_stands() -> None:
    text = text_of(quote_pdf(quote=make_quote(unpriced=(), alternatives=())))
    assert "stands for 30 days" in text
    assert "To pay 30.42 EUR" in text
    assert "Other ways" not in text


def test_a_tax_with_decimals_is_told_exactly() -> None:
    assert "Tax, 8.1 %" in text_of(quote_pdf(quote=make_quote(tax_ratio=Decimal("0.081"))))
    assert "Tax, 0 %" in text_of(quote_pdf(quote=make_quote(tax_ratio=Decimal("0"))))


def test_a_long_quote_keeps_every_line_and_repeats_its_head() -> None:
    lines = tuple(line(f"Thing {number}", "1.00") for number in range(120))
    pdf = quote_pdf(quote=make_quote(lines=lines), page_size="letter")
    words = text_of(pdf)
    assert all(f"Thing {number} 1 × 1.00 1.00" in words for number in range(120))
    with_items = [text for text in page_texts(pdf) if "1 × 1.00" in text]
    assert len(with_items) > 1
    assert all(text.count("Item Quantity Each, EUR") == 1 for text in with_items)
    assert set(page_sizes_mm(pdf)) == {(215.9, 279.4)}


def test_the_same_quote_gives_the_same_bytes_with_embedded_fonts() -> None:
    pdf = quote_pdf(quote=make_quote())
    assert pdf == quote_pdf(quote=make_quote())
    assert all(fonts_of(pdf).values())


@pytest.mark.parametrize(
    ("quantity", "shown"),
    [
        ("1", "1"),
        ("1.5", "1.5"),
        ("0.0004", "0.0004"),
        ("1.66666", "1.6667"),
        ("2.0000", "2"),
        ("100", "100"),
        ("1E+2", "100"),
    ],
)
def test_quantities_are_short(quantity: str, shown: str) -> None:
    assert short_quantity(Decimal(quantity)) == shown


def rows_of(text: str) -> list[list[str]]:
    return list(csv.reader(StringIO(text.removeprefix("\ufeff"), newline="")))


def test_a_plans_parts_as_csv() -> None:
    plan = replace(make_plan(), parts=(PartNeeded(id="olive-50", name='Olive 5", café; →', quantity=2),))
    assert parts_csv(plan) == '\ufeff"id","name","quantity"\r\n"olive-50","Olive 5"", café; →","2"\r\n'


def test_a_quotes_lines_as_csv_leave_what_is_not_priced_empty() -> None:
    rows = rows_of(parts_csv(make_quote()))
    assert rows[1] == ["part", "hose", "Hose", "1.725", "m", "14.00", "1", "24.15", "EUR"]
    assert rows[3] == ["part", "mystery", "Mystery", "1", "piece", "", "1", "", "EUR"]


@pytest.mark.parametrize(
    "nasty",
    ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "  =1", "＝1", "|cmd", "%x", '=HYPERLINK("x")', "\0=1"],
)
def test_no_cell_begins_a_formula(nasty: str) -> None:
    plan = replace(make_plan(), parts=(PartNeeded(id=nasty, name=nasty, quantity=1),))
    for cell in rows_of(parts_csv(plan))[1]:
        assert cell.lstrip()[:1] not in FORMULA_SIGNS or not cell.lstrip()[:1]
        assert not cell.startswith(("\t", "\r", "\n"))


@given(st.text(alphabet=st.characters(exclude_categories=["Cs"], exclude_characters="\0")))
def test_every_name_survives_the_file(name: str) -> None:
    plan = replace(make_plan(), parts=(PartNeeded(id="x", name=name, quantity=1),))
    assert rows_of(parts_csv(plan))[1][1] == in_csv(name)
