"""How the page looks: its drawings in the dark, its own colours readable."""

import re

import pytest

from planner.documents.drawings import svg
from ui.page.looks import LOOKS
from ui.page.views import markup
from ui.page.views.port_picker import IN_THE_DARK

LEAST_CONTRAST = 4.5
"""WCAG 2.2, success criterion 1.4.3, level AA, for text of usual size; from memory."""


def brightness(colour: str) -> float:
    """Relative luminance, as WCAG 2.2 defines it; from memory."""
    digits = colour.removeprefix("#")
    digits = "".join(2 * digit for digit in digits) if len(digits) == 3 else digits
    parts = [int(digits[n : n + 2], 16) / 255 for n in (0, 2, 4)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    dark, light = sorted((brightness(one), brightness(other)))
    return (light + 0.05) / (dark + 0.05)


def test_contrast_is_measured_as_it_is_defined() -> None:
    assert contrast("#000000", "#fff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


def test_every_colour_of_a_drawing_has_one_for_the_dark() -> None:
    drawn = {value for value in vars(svg).values() if isinstance(value, str) and re.fullmatch("#[0-9a-f]{6}", value)}
    assert drawn
    assert drawn <= set(IN_THE_DARK)


@pytest.mark.parametrize("light", ["#1d2126", "#58616a", "#0a5a9c", "#7a6a2f", "#b34700", "#a3201a", "#1d6f3a"])
def test_words_in_a_drawing_can_be_read_light_and_dark(light: str) -> None:
    assert contrast(light, svg.PAPER) >= LEAST_CONTRAST
    assert contrast(IN_THE_DARK[light], IN_THE_DARK[svg.PAPER]) >= LEAST_CONTRAST


@pytest.mark.parametrize("outcome", ["fits", "tight", "unknown", "no_fit"])
def test_every_verdict_can_be_read_light_and_dark(outcome: str) -> None:
    (row,) = [row for row in markup._STYLE.splitlines() if row.startswith(f".lp-{outcome} ")]
    (paper_light, paper_dark), (ink_light, ink_dark) = re.findall(r"light-dark\((#\w+), (#\w+)\)", row)
    assert contrast(paper_light, ink_light) >= LEAST_CONTRAST
    assert contrast(paper_dark, ink_dark) >= LEAST_CONTRAST


def test_the_words_of_the_page_can_be_read_in_the_dark() -> None:
    for name in ("textColor", "primaryColor"):
        assert contrast(str(LOOKS[f"theme.dark.{name}"]), str(LOOKS["theme.dark.backgroundColor"])) >= LEAST_CONTRAST
