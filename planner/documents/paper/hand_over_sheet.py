"""The hand-over record on paper: what went in, what was read, who looked again, and where to sign."""

from planner.documents.drawings.svg import SOFT_INK
from planner.documents.paper.pages import pages_as_pdf
from planner.documents.paper.parts import gap, heading
from planner.documents.paper.style import Cell, PageSize, table, text_width_mm, words
from planner.documents.words.hand_over_words import HAND_OVER_CAUTIONS, WRONG_SENTENCE, hand_over_rows
from planner.plan.hand_over import HandOver

NAME_COLUMN_MM = 88.0
SIGNED_LINE = "______________________________"


def hand_over_pdf(
    *,
    record: HandOver,
    title: str,
    for_whom: str = "",
    shop_name: str = "",
    shop_address: str = "",
    number: str = "",
    page_size: PageSize = "a4",
) -> bytes:
    """A hand-over record to sign and give away with the bicycle.

    Returns PDF; the same for the same input.

    title : of the job
    for_whom, shop_name, shop_address : "" for none
    number : which of the job's records it is; "" for one that is not kept yet
    """
    width_mm = text_width_mm(page_size)
    rows: list[list[Cell]] = [[name, words_] for name, words_ in hand_over_rows(record)]
    about = " · ".join(text for text in (shop_name, for_whom and f"for {for_whom}", record.day) if text)
    parts = [
        words(f"Hand-over record {number}".strip(), "title"),
        words(title, "strong"),
        *([words(about)] if about else []),
        *([words(shop_address, "small", colour=SOFT_INK)] if shop_address else []),
        *([gap(2), words(WRONG_SENTENCE, "strong")] if record.is_wrong else []),
        gap(3),
        table(rows, widths_mm=[NAME_COLUMN_MM, width_mm - NAME_COLUMN_MM], has_head=False),
        *heading("Before riding"),
        *(words(f"• {caution}") for caution in HAND_OVER_CAUTIONS),
        *heading("Signed", followed_by_mm=40),
        *(
            part
            for who in ("Work done", "Looked over by another person", "Bicycle taken back")
            for part in (gap(6), words(f"{SIGNED_LINE}  {who}, day ____________"))
        ),
    ]
    foot = " · ".join(text for text in (shop_name, "hand-over record", number, record.day) if text)
    return pages_as_pdf(parts, page_size=page_size, title=f"Hand-over record: {title}", foot=foot)
