"""Whatever stands in a text, printed it steers no terminal, breaks no picture and starts no formula."""

import json
import unicodedata
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner import draw_route, plan_job
from planner.documents.drawings.svg import group, sheet, text
from planner.documents.paper.job_card import job_card_pdf
from planner.documents.words.printable import (
    FORMULA_SIGNS,
    WORD_JOINER,
    in_csv,
    in_markdown,
    in_xml,
    printable_line,
    printable_text,
)
from tests.builders import make_job, make_lane_frame, make_spoke, make_workshop

ANY_TEXT = st.text(alphabet=st.characters(exclude_categories=[]))
NASTY = "a\x1b]0;owned\x07 \x9b31m \u202eback\u2066 \x00 \ufffe \udc9b <b>&\"'"
PLAIN_SIGNS = "Café 5 × 2 → „Ω“ שלום سلام 漢字 \u200d👩‍🔧 \\path\\file [x] {y} 100 %"


def is_harmless(words: str) -> bool:
    turned = set(range(0x202A, 0x202F)) | set(range(0x2066, 0x206A))
    return not any(
        (unicodedata.category(sign) in ("Cc", "Cs", "Zl", "Zp") and sign != "\n") or ord(sign) in turned
        for sign in words
    )


@pytest.mark.parametrize(
    ("given_words", "told"),
    [
        ("\x1b[2J", "\\u001b[2J"),
        ("a\rb\tc", "a\\u000db\\u0009c"),
        ("\x9b31m", "\\u009b31m"),
        ("\u202egnp", "\\u202egnp"),
        ("\udcff", "\\udcff"),
        ("\U000e0041", "\\udb40\\udc41"),
        ("two\nlines", "two\nlines"),
        (PLAIN_SIGNS, PLAIN_SIGNS),
    ],
)
def test_signs_that_cannot_be_printed_are_told_by_their_number(given_words: str, told: str) -> None:
    assert printable_text(given_words) == told


def test_a_line_stays_one() -> None:
    assert printable_line("a\nproblem: forged") == "a\\u000aproblem: forged"


@given(ANY_TEXT)
def test_what_is_printed_is_harmless_and_printing_it_again_changes_nothing(words: str) -> None:
    assert is_harmless(printable_text(words))
    assert printable_text(printable_text(words)) == printable_text(words)
    assert is_harmless(printable_line(words).replace("\\", ""))
    assert "\n" not in printable_line(words)


@given(ANY_TEXT)
def test_json_text_stays_the_same_json(words: str) -> None:
    assert json.loads(printable_text(json.dumps({"a": words}, ensure_ascii=False))) == {"a": words}


@given(ANY_TEXT)
def test_every_text_makes_a_well_formed_picture(words: str) -> None:
    parts = [text((0, 0), words), group([], role=words, name=words, title=words)]
    picture = sheet(parts, width_mm=10.0, height_mm=10.0, title=words).svg
    read = ElementTree.fromstring(picture.encode("utf-8"))
    assert read[0].text == (printable_line(words) or None)
    assert read[3].get("data-name") == (printable_line(words) or None)


def test_words_in_xml_are_read_back() -> None:
    assert ElementTree.fromstring(f"<a b='x'>{in_xml('<&> ok')}</a>").text == "<&> ok"


@given(ANY_TEXT)
def test_no_cell_is_a_formula_and_all_of_it_is_kept(words: str) -> None:
    cell = in_csv(words)
    assert is_harmless(cell)
    for part in cell.split(";"):
        assert part.lstrip()[:1] not in FORMULA_SIGNS or not part.strip()
    assert cell.replace("'", "") == printable_text(words).replace("'", "")


@given(ANY_TEXT)
def test_words_in_a_paragraph_of_the_page_are_harmless(words: str) -> None:
    assert is_harmless(in_markdown(words))


def test_an_image_from_elsewhere_is_not_fetched() -> None:
    shown = in_markdown("![x](http://evil.invalid/a.png).yaml")
    assert shown == f"!\\[x\\](http:{WORD_JOINER}//evil.invalid/a.png).yaml"


@pytest.mark.parametrize("words", ["http://evil.invalid", "www.evil.invalid", "a@evil.invalid", ":smile:", "->", "<-"])
def test_what_is_looked_for_after_markup_is_not_found(words: str) -> None:
    assert WORD_JOINER in in_markdown(words)
    assert in_markdown(words).replace(WORD_JOINER, "").replace("\\", "") == words


def test_card_and_pictures_are_made_whatever_names_and_titles_say() -> None:
    frame = replace(make_lane_frame((8.0, 8.0)), name=NASTY)
    frame = replace(frame, ports={port_id: replace(port, label=NASTY) for port_id, port in frame.ports.items()})
    plan = plan_job(job=make_job(frame, title=NASTY), workshop=make_workshop(make_spoke(name=NASTY)))
    assert job_card_pdf(plan=plan, frame=frame, date_text="2026-01-01").startswith(b"%PDF")
    assert printable_line(NASTY) in "".join(ElementTree.fromstring(draw_route(plan, frame).svg).itertext())
