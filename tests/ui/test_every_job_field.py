"""Every field of a job file has its place in the form, or a reason why it has none."""

from collections.abc import Iterator
from typing import Any, get_args

import pytest
from pydantic import BaseModel

from catalog.jobs import JobEntry
from planner.parts import OldMeasured
from tests.ui.page_builders import box, open_job, open_page, verdicts_of, words_of
from ui.page.forms.job_form import choices_of

REASONS = {
    "id": "made of frame and line; Save asks what the job is kept under",
    "title": "made of frame and line; Save asks for another",
    "source": "says who measured a frame's or a part's figures; a job says what is wanted",
    "note": "Save asks for the reason and keeps it in the history",
    "new.brake": "chosen under Goes on, which tells brakes from bare lines",
    "new.line": "chosen under Goes on",
    "old.brake": "chosen under Comes off",
    "old.line": "chosen under Comes off",
}
"""Fields without a field of their own of the same name."""


def _models(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _models(inner)


def _paths(model: type[BaseModel], before: str = "") -> Iterator[str]:
    """Every field of a job file down to its leaves, as old.move.from."""
    for name, info in model.model_fields.items():
        path = f"{before}{info.alias or name}"
        inner = list(_models(info.annotation))
        if not inner:
            yield path
        for one in inner:
            yield from _paths(one, f"{path}.")


FULL: dict[str, Any] = {
    "id": "all",
    "title": "All told",
    "frame": "quillfern-130",
    "from": "bar-right",
    "to": "caliper-rear",
    "old": {
        "line": "hose-50x21",
        "through": ["neck-left"],
        "measured_length": 1500,
        "measured": OldMeasured.BETWEEN_FITTINGS.value,
        "move": {"from": 3, "to": -4},
        "reached": True,
        "from_end": {"fitting": "nut-m8-50x21", "fitted": True},
        "to_end": {"fitting": "nut-m8-50x21", "fitted": False},
    },
    "new": {
        "line": "hose-50x21",
        "supplied_length": 2200,
        "from_end": {"fitting": "nut-m8-50x21", "fitted": False},
        "to_end": {"fitting": "nut-m8-50x21", "fitted": True},
    },
    "staying": [{"line": "gear-housing-40", "through": ["neck-left"]}],
    "rotor": 180,
    "rotor_hub": "splined",
    "allow": {"remove_inserts": False, "keep_old_brake": True},
}
"""A job that tells all there is to tell."""


def _told(fields: dict[str, Any], before: str = "") -> Iterator[str]:
    for name, value in fields.items():
        path = f"{before}{name}"
        rows = value if isinstance(value, list) and value and isinstance(value[0], dict) else [value]
        for row in rows:
            if isinstance(row, dict):
                yield from _told(row, f"{path}.")
            else:
                yield path


def test_every_field_of_a_job_file_is_held_by_the_form_or_has_its_reason(monkeypatch: pytest.MonkeyPatch) -> None:
    """The form shows a job that tells everything, and gives back the same."""
    wanted = {path for path in _paths(JobEntry) if path not in REASONS and path.split(".")[0] not in REASONS}
    assert wanted <= set(_told(FULL)), "the job of this test tells too little"
    page = open_page(monkeypatch)
    for key, value in choices_of(FULL).items():
        page.session_state[key] = value
    page.run()
    assert not page.exception
    fields = page.session_state["held_sound_fields"]["fields"]
    assert set(_told(fields)) >= wanted
    for name in ("old", "new", "staying", "rotor", "rotor_hub", "allow", "frame", "from", "to"):
        assert fields[name] == FULL[name], name


def test_a_reason_is_for_a_field_that_there_is() -> None:
    assert set(REASONS) <= {path for known in _paths(JobEntry) for path in (known, known.split(".")[0])}


def test_what_is_out_of_range_is_told_at_its_field_and_the_answer_turns_grey(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "trail-rear-brake")
    (rotor,) = [one for one in page.text_input if one.label.startswith("Rotor wanted")]
    rotor.set_value("5000").run()
    assert not page.exception
    assert [outcome for outcome, _ in verdicts_of(page)] == ["unknown"], "the answer of before keeps no colour"
    assert any("5000" in str(one.value) for one in page.error)
    assert "The answer of before this change" in words_of(page)
    assert not page.tabs
    (rotor,) = [one for one in page.text_input if one.label.startswith("Rotor wanted")]
    rotor.set_value("180").run()
    assert "The answer of before this change" not in words_of(page)


def test_what_was_typed_of_an_old_way_is_gone_with_another_end(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "trail-rear-brake")
    (length,) = [one for one in page.text_input if one.label.startswith("Old line measured")]
    length.set_value("1500").run()
    assert "the old line was measured at 1500 mm" in words_of(page)
    starts = box(page, "Line starts at")
    starts.set_value("bar-left").run()
    assert not page.exception
    assert "1500" not in words_of(page)
