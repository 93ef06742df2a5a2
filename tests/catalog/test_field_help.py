"""What forms and help pages can ask about a field."""

from collections import Counter
from typing import Any, get_args

import pytest
from pydantic import BaseModel

from catalog.catalog_file import CatalogFile
from catalog.entry_fields import annotation_of, kinds_of_entries
from catalog.field_help import fields_of
from catalog.frames import GuideEntry, PortEntry
from catalog.jobs import JobEntry
from catalog.lines import LineEntry
from catalog.read_files import LIST_SECTIONS, entry_kind
from catalog.shop import ShopEntry


def test_a_length_has_label_help_unit_and_range() -> None:
    outer = fields_of(LineEntry)["outer"]
    assert (outer.label, outer.help, outer.unit) == ("outer diameter", "Across the line, with calipers.", "mm")
    assert (outer.least, outer.most, outer.is_required, outer.range) == (0.8, 20.0, True, "0.8 to 20 mm")


def test_a_field_that_may_be_left_out_keeps_its_range() -> None:
    bore = fields_of(LineEntry)["bore"]
    assert (bore.is_required, bore.range) == (False, "0.5 to 15 mm")


@pytest.mark.parametrize(("number", "fits"), [(0.79, False), (0.8, True), (5.0, True), (20.0, True), (20.01, False)])
def test_limits_that_are_themselves_allowed(number: float, fits: bool) -> None:
    assert fields_of(LineEntry)["outer"].takes(number) is fits


@pytest.mark.parametrize(("number", "fits"), [(0.0, True), (89.9, True), (90.0, False)])
def test_a_limit_that_is_not_allowed(number: float, fits: bool) -> None:
    tilt = fields_of(PortEntry)["tilt"]
    assert (tilt.takes(number), tilt.range) == (fits, "0 to less than 90 degrees")


def test_a_number_above_a_limit() -> None:
    mass = fields_of(LineEntry)["mass_per_metre"]
    assert (mass.takes(0.0), mass.range) == (False, "more than 0, at most 2000 g")


def test_choices_are_the_words_of_the_files() -> None:
    assert fields_of(JobEntry)["rotor_hub"].choices == ("six_bolt", "splined")
    assert "mineral_oil" not in fields_of(LineEntry)["kind"].choices


def test_names_are_those_of_the_files_and_notes_come_last() -> None:
    names = list(fields_of(JobEntry))
    assert names[:4] == ["id", "title", "frame", "from"]
    assert names[-2:] == ["note", "source"]


@pytest.mark.parametrize("model", [GuideEntry, ShopEntry, LineEntry])
def test_every_measured_field_has_help(model: type) -> None:
    fields = fields_of(model).values()
    assert all(field.help and field.label for field in fields if field.is_number)


def test_every_list_of_the_file_is_known_to_the_reader() -> None:
    assert set(LIST_SECTIONS) | {"format", "shop"} == set(CatalogFile.model_fields)
    assert all(entry_kind(section)[0] is not None for section in LIST_SECTIONS)


def models_in(annotation: Any, seen: set[type[BaseModel]]) -> None:
    """Every kind of entry that stands anywhere below."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel) and annotation not in seen:
        seen.add(annotation)
        for info in annotation.model_fields.values():
            models_in(info.annotation, seen)
    for inner in get_args(annotation):
        models_in(inner, seen)


def test_no_two_fields_of_an_entry_are_called_alike() -> None:
    """A sleeve's form asked twice for a "diameter", its bore and its outside; the slips asked forty times "from"."""
    models: set[type[BaseModel]] = set()
    for kind in kinds_of_entries():
        models_in(annotation_of(kind), models)
    assert len(models) > 30
    for model in models:
        labels = Counter(told.label for told in fields_of(model).values())
        assert [label for label, count in labels.items() if count > 1] == [], model


def test_a_title_of_the_fields_own_goes_before_its_name() -> None:
    coupler = next(one for one in models_of("method") if "stud_length" in one.model_fields)
    assert [fields_of(coupler)[name].label for name in ("stud", "stud_length")] == ["stud diameter", "stud length"]
    port = next(one for one in models_of("frame") if {"tilt", "joins"} <= one.model_fields.keys())
    assert fields_of(port)["at"].label == "place"


def models_of(kind: str) -> set[type[BaseModel]]:
    models: set[type[BaseModel]] = set()
    models_in(annotation_of(kind), models)
    return models
