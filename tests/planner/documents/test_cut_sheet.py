"""The printed cut list: every cut with its place, what is kept, and what is not cut."""

from planner import StockLength, cut_sheet_pdf, find_job_cuts
from tests.builders import make_job, make_lane_frame, make_workshop
from tests.planner.documents.paper_reading import fonts_of, page_texts, text_of

ROLL = StockLength(id="roll <A>", line_id="new", length_mm=25_000)


def _sheet(count: int = 2, **named) -> bytes:
    job = make_job(make_lane_frame((8.0, 8.0)))
    blocked = make_job(make_lane_frame((4.0, 4.0)), id="blocked")
    cuts = find_job_cuts(
        jobs=[*(job for _ in range(count)), blocked], workshop=make_workshop(), stock=[ROLL], keep_offcut_from_mm=300
    )
    return cut_sheet_pdf(cuts=cuts, line_names={"new": "Hose of 5 & more"}, **named)


def test_every_cut_stands_on_paper_with_its_place() -> None:
    text = text_of(_sheet())
    for words in ("1. roll <A> · Hose of 5 & more", "job #1 0 mm", "job #2", "keep as offcut", "blocked: No plan"):
        assert words in text
    assert text.count("☐") == 2


def test_long_lists_repeat_their_head_and_the_bytes_are_the_same_twice() -> None:
    sheet = _sheet(60, page_size="letter")
    assert sheet == _sheet(60, page_size="letter")
    texts = page_texts(sheet)
    assert len(texts) > 2
    assert sum("Cut from / for" in text for text in texts) >= 2
    assert all(fonts_of(sheet).values())


def test_nothing_to_cut_is_still_a_sheet() -> None:
    text = text_of(_sheet(0))
    assert "0 rolls opened" in text
    assert "☐" not in text
