"""Jobs told in a dialogue: what is offered belongs together, and what is told is a sound job file."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from catalog import Catalog, job_from_fields, read_catalog, without_notes
from planner import check_compatibility
from planner.verdicts import Outcome
from tests.ui.dialogue.told import THREE_HOLES, TWO_HOLES, answered
from tests.ui.shop_samples import DEMO
from ui.shared.dialogue.frame_fields import frame_entry
from ui.shared.dialogue.frame_questions import frame_script
from ui.shared.dialogue.job_questions import job_script
from ui.shared.dialogue.questions import Question, Script, walk
from ui.shared.dialogue.told_files import frame_text, job_text, wrong_with_job

SWAP = {"old": "wexcombe 2 rear", "new": "dunmere"}


def _catalog(folder: Path, *frames: Mapping[str, str]) -> Catalog:
    files = []
    for number, words in enumerate(frames):
        files.append(folder / f"{number}.yaml")
        files[-1].write_text(frame_text(frame_entry(answered(frame_script, words))), encoding="utf-8")
    return read_catalog(files, over_starter=True)


@pytest.fixture
def catalog(tmp_path: Path) -> Catalog:
    """The starter with one frame told by its holes, with a post mount."""
    return _catalog(tmp_path, {**THREE_HOLES, "mount": "post 160 203 six-bolt"})


def _begin(catalog: Catalog) -> Callable[[], Script[dict[str, Any]]]:
    return lambda: job_script(catalog)


def _asked(catalog: Catalog, key: str, **typed: str) -> Question:
    found = walk(_begin(catalog), typed, takes_defaults=True)
    answers = {answer.question.key: answer.question for answer in found.answers}
    asked = answers.get(key, found.next)
    assert asked is not None
    assert asked.key == key
    return asked


def test_two_answers_make_a_job_where_the_frame_is_the_only_one(catalog: Catalog) -> None:
    fields = answered(_begin(catalog), SWAP)
    assert fields == {
        "id": "trail-bike-dunmere-4-rear",
        "title": "Dunmere 4 rear (invented) on Trail bike",
        "frame": "trail-bike",
        "from": "bar-right",
        "to": "caliper-rear",
        "old": {"brake": "wexcombe-2-rear"},
        "new": {"brake": "dunmere-4-rear"},
        "allow": {"keep_old_brake": False},
    }
    assert list(wrong_with_job(fields, catalog)) == []


def test_of_two_frames_one_must_be_named(tmp_path: Path) -> None:
    both = _catalog(tmp_path, TWO_HOLES, THREE_HOLES)
    found = walk(_begin(both), {}, takes_defaults=True)
    assert found.next is not None
    assert (found.next.key, found.next.in_brackets) == ("frame", "")
    assert answered(_begin(both), {**SWAP, "frame": "blue"})["frame"] == "blue-hardtail"


def test_only_what_belongs_together_is_offered(catalog: Catalog) -> None:
    offered = [word for word, _ in _asked(catalog, "new", old="wexcombe 2 rear").choices]
    assert {"dunmere-4-rear", "hose-50x21"} <= set(offered)
    assert "tolgarth-r-rear" not in offered, "its flat mount and its clamp fit neither frame nor bar"
    assert not any(word.endswith("front") for word in offered)
    assert not any(word.startswith("gear-housing") for word in offered)
    for word in offered:
        job = job_from_fields(without_notes(answered(_begin(catalog), {**SWAP, "new": word})), catalog)
        found = check_compatibility(job=job, limits=catalog.workshop.limits, adapters=catalog.workshop.adapters)
        assert found.outcome is not Outcome.NO_FIT, word


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("hose 5.0 bore 2.1", {"line": "hose-50x21"}),
        ("hose 5,5 bore 2,5", {"line": "hose-55x25"}),
        ("nothing", "none"),
        ("Pellow M rear (invented)", {"brake": "pellow-m-rear"}),
    ],
)
def test_what_is_in_it_by_name_size_or_nothing(said: str, told: object, catalog: Catalog) -> None:
    assert answered(_begin(catalog), {**SWAP, "old": said, "new": "hose-50x21"})["old"] == told


@pytest.mark.parametrize("said", ["hose 4.8 bore 2.1", "hose 5.0", "gear housing", "5.0"])
def test_what_names_no_single_line_is_asked_again(said: str, catalog: Catalog) -> None:
    assert walk(_begin(catalog), {"old": said}, takes_defaults=True).refusal


def test_the_left_hand_is_asked_in_a_word(catalog: Catalog) -> None:
    assert answered(_begin(catalog), {**SWAP, "ends": "rear left"})["from"] == "bar-left"


def test_only_ends_that_runs_link_are_offered() -> None:
    """The demo's trail frame has a left lever, and no run from it."""
    trail = read_catalog([DEMO / "trail.frame.yaml"], over_starter=True)
    (words,) = (meaning for _, meaning in _asked(trail, "ends").choices)
    assert words == "Right lever to Rear caliper"


def test_what_stays_is_the_thickest_called_so_and_says_so(catalog: Catalog) -> None:
    fields = answered(_begin(catalog), {**SWAP, "staying": "gear housing: neck; wire: neck, window"})
    assert without_notes(fields["staying"]) == [
        {"line": "gear-housing-50", "through": ["neck"]},
        {"line": "wire-25", "through": ["neck", "window"]},
    ]
    assert "line: gear-housing-50   # the thickest of those called so, to be safe: measure it" in job_text(fields)


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ("gear housing", "a line, a colon and its holes"),
        ("rope: neck", "no line is called “rope”"),
        ("wire: belly", "“belly” is no hole of this frame: neck, window, chainstay-exit"),
    ],
)
def test_what_stays_where_nobody_knows(said: str, why: str, catalog: Catalog) -> None:
    assert why in walk(_begin(catalog), {**SWAP, "staying": said}, takes_defaults=True).refusal


def test_a_rotor_that_does_not_go_is_refused_at_once(catalog: Catalog) -> None:
    assert answered(_begin(catalog), {**SWAP, "rotor": "203"})["rotor"] == 203
    assert walk(_begin(catalog), {**SWAP, "rotor": "220"}, takes_defaults=True).refusal


def test_the_old_line_is_measured_between_its_fittings(catalog: Catalog) -> None:
    old = answered(_begin(catalog), {**SWAP, "length": "1480"})["old"]
    assert old == {"brake": "wexcombe-2-rear", "measured_length": 1480, "measured": "between_fittings"}


def test_a_fresh_line_gets_the_ends_that_the_workshop_can_set(catalog: Catalog) -> None:
    new = without_notes(answered(_begin(catalog), {**SWAP, "new": "hose 5.0 bore 2.1"}))["new"]
    assert new == {"line": "hose-50x21", "from_end": {"fitting": "nut-m8-50x21"}}
