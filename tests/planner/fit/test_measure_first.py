"""What to measure first: in order, with figures, and nothing that tells nothing."""

import pytest

from planner.fit.measure_first import Place, rank_measurements
from planner.parts import Opening, RoundOpening, SlotOpening
from planner.verdicts import Outcome, Room, Thing, ThingKind


def place(place_id: str, opening: Opening | None, *sizes: tuple[str, float, float]) -> Place:
    return Place(
        id=place_id,
        room=Room(opening=opening, wall_thickness_mm=1.0),
        things=tuple(
            Thing(id=name, kind=ThingKind.LINE, diameter_mm=size, tolerance_mm=tolerance)
            for name, size, tolerance in sizes
        ),
    )


HOSE = ("hose", 5.0, 0.05)
WIDE = place("wide", RoundOpening(diameter_mm=9, tolerance_mm=0.1), HOSE)
CLOSE = place("close", RoundOpening(diameter_mm=5.02, tolerance_mm=0.2), HOSE)
UNMEASURED = place("unmeasured", None, HOSE)


def test_an_opening_nobody_measured_comes_first() -> None:
    ranked = rank_measurements(places=[CLOSE, UNMEASURED, WIDE], running_clearance_mm=0.5)
    assert ranked[0].place_id == "unmeasured"
    assert ranked[0].outcome is Outcome.UNKNOWN
    assert ranked[0].clearance_mm is None
    assert ranked[0].chance_ratio is None
    assert ranked[0].reason == "Nobody has measured the opening of unmeasured, so nothing can be said about it."


def test_the_size_known_worst_comes_before_the_others() -> None:
    ranked = rank_measurements(places=[CLOSE], running_clearance_mm=0.5)
    assert [one.what for one in ranked] == ["opening diameter", "hose"]
    assert ranked[0].outcome_change_ratio > ranked[1].outcome_change_ratio
    assert ranked[0].narrowing_ratio > ranked[1].narrowing_ratio


def test_what_is_clear_anyway_needs_no_measurement() -> None:
    assert rank_measurements(places=[WIDE], running_clearance_mm=0.5) == ()


def test_how_often_the_outcome_changes_is_counted_over_the_readings() -> None:
    """Clearance 0, hole plus or minus 0.2, thing exact: half the readings make the tight hole one that does not fit."""
    exact = place("exact", RoundOpening(diameter_mm=5.0, tolerance_mm=0.2), ("hose", 5.0, 0.0))
    (one,) = rank_measurements(places=[exact], running_clearance_mm=0.5)
    assert one.outcome is Outcome.TIGHT
    assert one.chance_ratio == pytest.approx(0.5)
    assert one.outcome_change_ratio == pytest.approx(0.5, abs=0.02)
    assert one.narrowing_ratio > 0.9  # what is left open is a tenth of what was


def test_a_size_that_holds_nothing_back_is_left_out() -> None:
    slot = place("slot", SlotOpening(length_mm=30, width_mm=5.05, tolerance_mm=0.1), HOSE)
    ranked = rank_measurements(places=[slot], running_clearance_mm=0.5)
    assert {one.what for one in ranked} == {"opening width", "hose"}


def test_reasons_are_sentences_with_their_figures() -> None:
    (first, *_) = rank_measurements(places=[CLOSE], running_clearance_mm=0.5)
    assert first.reason.startswith(
        "The opening diameter at close is known to ±0.20 mm, worth 0.20 mm of clearance; measured to ±0.02 mm"
    )
    assert first.reason.endswith("%).")


def test_order_of_places_does_not_matter() -> None:
    one = rank_measurements(places=[CLOSE, UNMEASURED, WIDE], running_clearance_mm=0.5)
    assert one == rank_measurements(places=[WIDE, UNMEASURED, CLOSE], running_clearance_mm=0.5)


def test_no_measurement_is_asked_for_that_would_change_nothing() -> None:
    """Clear by 0.05, known to 0.06: whatever is read, it stays tight, however much doubt the reading takes away."""
    sure = place("sure", RoundOpening(diameter_mm=5.05, tolerance_mm=0.03), ("hose", 5.0, 0.03))
    assert rank_measurements(places=[sure], running_clearance_mm=0.5) == ()
    told = rank_measurements(places=[CLOSE, WIDE, sure], running_clearance_mm=0.5)
    assert told
    assert not any(" 0 % of the time" in one.reason for one in told)


def test_shares_in_the_reason_are_percent_of_the_normal_law() -> None:
    """Hole 0.1 over the thing and off by 0.1 in one deviation: 84.13 % of holes let it pass."""
    one_deviation = place("one", RoundOpening(diameter_mm=5.1, tolerance_mm=0.2), ("hose", 5.0, 0.0))
    (first,) = rank_measurements(places=[one_deviation], running_clearance_mm=0.5)
    assert first.reason.endswith("(chance of fitting now 84 %).")


def test_a_measurement_that_would_turn_tight_to_fits_is_told_how_often() -> None:
    """Hole 6 plus or minus 0.3, thing 5.4: 0.6 spare, 0.3 at worst, 0.5 wanted. Read to 0.02, the worst is what is read
    less 0.02: enough from 0.08 below on, with a spread of 0.15 that is seven times in ten."""
    place = Place(
        id="hole",
        room=Room(opening=RoundOpening(diameter_mm=6.0, tolerance_mm=0.3)),
        things=(Thing(id="thing", kind=ThingKind.LINE, diameter_mm=5.4, tolerance_mm=0.0),),
    )
    (first,) = rank_measurements(places=[place], running_clearance_mm=0.5)
    assert first.outcome is Outcome.TIGHT
    assert first.outcome_change_ratio == pytest.approx(0.70, abs=0.03)
