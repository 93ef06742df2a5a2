"""Narrow labels of cut lengths."""

from dataclasses import replace

import pytest

from planner.documents.paper.cut_label import CutLabel, cut_label_pdf, label_of_plan
from tests.planner.documents.drawing_samples import make_plan, make_stopped_plan
from tests.planner.documents.paper_reading import fonts_of, page_sizes_mm, text_of


def test_the_label_of_a_plan_tells_the_length_to_cut() -> None:
    plan = make_plan()
    label = label_of_plan(plan)
    assert label is not None
    assert plan.lengths is not None
    pdf = cut_label_pdf(labels=[label])
    assert f"✂ {plan.lengths.cut_mm:.0f} mm (never shorter)" in text_of(pdf)
    label = replace(label, cut_over_mm=3)
    assert f"✂ {plan.lengths.cut_mm:.0f} mm (+3/-0)" in text_of(cut_label_pdf(labels=[label]))
    assert "Calder 4 (invented) Rear brake swap on the Larkmoor 140" in text_of(pdf)
    assert page_sizes_mm(pdf) == [(60.0, 30.0)]


def test_nothing_to_cut_has_no_label() -> None:
    assert label_of_plan(make_stopped_plan()) is None


def test_every_label_of_a_strip_has_a_page_of_its_own() -> None:
    labels = [CutLabel(line_name="Hose", length_mm=length, title="Job", note=f"no. {length}") for length in (1725, 900)]
    pdf = cut_label_pdf(labels=labels, width_mm=50)
    assert page_sizes_mm(pdf) == [(50.0, 30.0)] * 2
    assert text_of(pdf).index("no. 1725") < text_of(pdf).index("no. 900")


def test_texts_too_long_for_the_strip_shrink_onto_one_label() -> None:
    label = CutLabel(line_name="Very long hose name " * 8, length_mm=1725, title="Ελλάδα → Łódź " * 12, note="note")
    pdf = cut_label_pdf(labels=[label], width_mm=25)
    assert len(page_sizes_mm(pdf)) == 1
    assert text_of(pdf).count("Łódź") == 12


def test_labels_are_the_same_bytes_each_time_with_embedded_fonts() -> None:
    labels = [CutLabel(line_name="Hose", length_mm=1725, title="Job")]
    assert cut_label_pdf(labels=labels) == cut_label_pdf(labels=labels)
    assert all(fonts_of(cut_label_pdf(labels=labels)).values())


@pytest.mark.parametrize(("width_mm", "is_accepted"), [(24.9, False), (25.0, True), (25.1, True)])
def test_a_strip_needs_25_mm(width_mm: float, is_accepted: bool) -> None:
    labels = [CutLabel(line_name="Hose", length_mm=1725, title="Job")]
    if is_accepted:
        assert cut_label_pdf(labels=labels, width_mm=width_mm).startswith(b"%PDF")
    else:
        with pytest.raises(ValueError, match=r"width_mm: 24\.9 mm was given; a label needs 25 mm"):
            cut_label_pdf(labels=labels, width_mm=width_mm)


def test_a_label_is_as_large_as_was_asked_and_no_lower_than_15_mm() -> None:
    labels = [CutLabel(line_name="Hose", length_mm=1725, title="Job")]
    assert page_sizes_mm(cut_label_pdf(labels=labels, width_mm=40, height_mm=15)) == [(40.0, 15.0)]
    with pytest.raises(ValueError, match=r"height_mm: 14\.9 mm was given; a label needs 15 mm"):
        cut_label_pdf(labels=labels, width_mm=40, height_mm=14.9)


def test_no_label_is_refused() -> None:
    with pytest.raises(ValueError, match="there is no label to print"):
        cut_label_pdf(labels=[])
