"""Reading our own paper back: texts, fonts, page sizes."""

from io import BytesIO

from pypdf import PdfReader


def text_of(pdf: bytes) -> str:
    """All texts of a PDF, with every run of white space as one space."""
    return " ".join(page_texts(pdf))


def page_texts(pdf: bytes) -> list[str]:
    """The texts of every page, likewise."""
    return [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(pdf)).pages]


def page_sizes_mm(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height of every page."""
    pages = PdfReader(BytesIO(pdf)).pages
    return [
        (round(float(page.mediabox.width) * 25.4 / 72, 1), round(float(page.mediabox.height) * 25.4 / 72, 1))
        for page in pages
    ]


def fonts_of(pdf: bytes) -> dict[str, bool]:
    """Every font a PDF names, and whether it is embedded."""
    found: dict[str, bool] = {}
    for page in PdfReader(BytesIO(pdf)).pages:
        for font in page["/Resources"]["/Font"].values():
            descriptor = font.get_object().get("/FontDescriptor")
            embedded = descriptor is not None and "/FontFile2" in descriptor.get_object()
            found[str(font.get_object()["/BaseFont"])] = embedded
    return found
