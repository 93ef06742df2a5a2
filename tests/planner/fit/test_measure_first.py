"""What to measure first: in order, with figures, and nothing that tells nothing."""

from dataclasses import replace
from math import asin, pi, sqrt
from statistics import NormalDist

import pytest
from scipy.stats import multivariate_normal

from planner.fit.measure_first import Place, rank_measurements
from planner.geometry.packing.work import Allowance
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
    assert (ranked[0].outcome_change_ratio, ranked[0].narrowing_ratio) == (1.0, 1.0)
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


def doubt_taken(*, chance: float, read_mm: float, others_mm: float) -> float:
    """Share of chance * (1 - chance) that a reading takes, by the law of two correlated normal deviates.

    Once the reading is known the chance is some Phi; that it says yes twice has the probability Phi2(z, z; rho), rho
    being the share of the variance that the reading takes. At an even chance this is 2 / pi * asin(rho). Derived.

    read_mm, others_mm : deviations of what the reading tells, and of what stays open
    """
    rho = read_mm**2 / (read_mm**2 + others_mm**2)
    z = NormalDist().inv_cdf(chance)
    twice = float(multivariate_normal(mean=[0, 0], cov=[[1, rho], [rho, 1]]).cdf([z, z]))
    return 1 - (chance - twice) / (chance * (1 - chance))


@pytest.mark.parametrize("spare_mm", [0.0, 0.05, -0.08])
def test_the_doubt_that_a_reading_takes_is_that_of_correlated_normal_sizes(spare_mm: float) -> None:
    """Hole plus or minus 0.2, thing 0.1: deviations 0.1 and 0.05. Measured to 0.02, 0.01 of either stays open."""
    one = place("hole", RoundOpening(diameter_mm=5 + spare_mm, tolerance_mm=0.2), ("hose", 5.0, 0.1))
    told = {each.what: each for each in rank_measurements(places=[one], running_clearance_mm=0.5)}
    chance = NormalDist().cdf(spare_mm / sqrt(0.1**2 + 0.05**2))
    for what, size_mm, other_mm in (("opening diameter", 0.1, 0.05), ("hose", 0.05, 0.1)):
        expected = doubt_taken(chance=chance, read_mm=sqrt(size_mm**2 - 0.01**2), others_mm=sqrt(0.01**2 + other_mm**2))
        assert told[what].chance_ratio == pytest.approx(chance, abs=1e-3)
        assert told[what].narrowing_ratio == pytest.approx(expected, abs=0.01)
    if spare_mm == 0:
        rho = (0.1**2 - 0.01**2) / (0.1**2 + 0.05**2)
        assert told["opening diameter"].narrowing_ratio == pytest.approx(2 / pi * asin(rho), abs=0.01)


def test_half_a_millimetre_of_a_row_is_a_quarter_of_its_room() -> None:
    """In a row the room is half of what is left of the length: things known to 0.4 are worth 0.2 each."""
    row = place("row", SlotOpening(length_mm=10, width_mm=8, tolerance_mm=0.0), ("hose", 5.0, 0.4), ("wire", 5.0, 0.4))
    hose, wire = rank_measurements(places=[row], running_clearance_mm=0.5)
    assert {hose.what, wire.what} == {"hose", "wire"}
    expected = doubt_taken(chance=0.5, read_mm=sqrt(0.2**2 - 0.01**2), others_mm=sqrt(0.01**2 + 0.2**2))
    for one in (hose, wire):
        assert "is known to ±0.40 mm, worth 0.20 mm of clearance" in one.reason
        assert one.outcome_change_ratio == pytest.approx(0.5, abs=0.02)
        assert one.narrowing_ratio == pytest.approx(expected, abs=0.01)


def test_what_is_measured_carefully_already_tells_nothing_more() -> None:
    fine = place("fine", RoundOpening(diameter_mm=5.0, tolerance_mm=0.02), ("hose", 5.0, 0.01))
    assert rank_measurements(places=[fine], running_clearance_mm=0.5) == ()


def test_a_reading_that_turns_fits_to_tight_counts_by_its_share() -> None:
    """Hole 6 plus or minus 0.3, thing 5.0 exact: 1.0 spare, 0.7 at worst, 0.5 wanted. Read to 0.02, it is tight from
    a reading 0.48 below on: with a spread of 0.15 once in 1,500, which is not told. With 0.6 wanted it is tight from
    0.38 below on, once in 180: not told either; with 0.69 from 0.29 below on, once in 37."""
    spare = place("spare", RoundOpening(diameter_mm=6.0, tolerance_mm=0.3), ("hose", 5.0, 0.0))
    assert rank_measurements(places=[spare], running_clearance_mm=0.5) == ()
    assert rank_measurements(places=[spare], running_clearance_mm=0.6) == ()
    (one,) = rank_measurements(places=[spare], running_clearance_mm=0.69)
    assert (one.outcome, one.what) == (Outcome.FITS, "opening diameter")
    assert one.outcome_change_ratio == pytest.approx(NormalDist().cdf(-0.29 / 0.15), abs=0.015)
    assert one.reason.endswith("it would change the outcome 2 % of the time (chance of fitting now 100 %).")


@pytest.mark.parametrize(
    ("spare_mm", "told"),
    [
        (0.22, "99 %"),  # 2.2 deviations: 98.6 %
        (0.24, "more than 99 %"),  # 2.4: 99.2 %
        (0.59, "more than 99 %"),
        (-0.22, "1 %"),
        (0.0, "50 %"),
    ],
)
def test_what_is_not_certain_is_never_rounded_to_certainty(spare_mm: float, told: str) -> None:
    """The hole is known to 0.2, two deviations."""
    hole = place("hole", RoundOpening(diameter_mm=5 + spare_mm, tolerance_mm=0.2), ("hose", 5.0, 0.0))
    reasons = [
        one.reason
        for wanted_mm in (0.0, max(spare_mm, 0.0))
        for one in rank_measurements(places=[hole], running_clearance_mm=wanted_mm)
    ]
    assert reasons
    assert {reason.partition("(chance of fitting now ")[2] for reason in reasons} == {f"{told})."}


def test_a_chance_below_one_in_a_hundred_is_not_told_as_none() -> None:
    """Slot 18 known to 0.2 at 43.9 degrees, give or take 1: (18 cos t - 1.6 sin t - 11.8) / 2 is 0.030 in the middle
    and -0.090 at 44.9, of which a deviation is 0.5 cos 44.9 * 0.1 = 0.035: 2.5 deviations, six in a thousand."""
    leaning = Place(
        id="slot",
        room=Room(
            opening=SlotOpening(length_mm=18, width_mm=7, tolerance_mm=0.2),
            tilt_deg=43.9,
            tilt_tolerance_deg=1.0,
            wall_thickness_mm=1.6,
        ),
        things=tuple(
            Thing(id=name, kind=ThingKind.LINE, diameter_mm=5.9, tolerance_mm=0.0) for name in ("hose", "wire")
        ),
    )
    tilt, length = rank_measurements(places=[leaning], running_clearance_mm=0.2)
    assert (tilt.what, length.what) == ("tilt", "opening length")
    assert tilt.chance_ratio == length.chance_ratio == pytest.approx(0.0057, abs=0.001)
    assert length.reason.endswith("(chance of fitting now less than 1 %).")
    # of seven readings from 43.04 to 44.76 the last three do not pass at nominal sizes
    assert tilt.outcome_change_ratio == tilt.narrowing_ratio == pytest.approx(3 / 7)
    assert tilt.reason == (
        "The tilt at slot is known to 42.9 to 44.9°; measured it would change the outcome 43 % of the time."
    )


def test_sizes_and_places_are_told_by_what_people_call_them() -> None:
    named = replace(CLOSE, label="Neck, left", names=(("hose", "Rear brake hose"), ("wire", "Wire")))
    told = rank_measurements(places=[named], running_clearance_mm=0.5)
    assert [one.reason.partition(" is known")[0] for one in told] == [
        "The opening diameter at Neck, left",
        "The Rear brake hose at Neck, left",
    ]
    assert [one.what for one in told] == ["opening diameter", "hose"]


def test_of_equal_measurements_the_first_by_name_comes_first() -> None:
    twins = [replace(CLOSE, id=place_id) for place_id in ("b", "a")]
    told = rank_measurements(places=twins, running_clearance_mm=0.5)
    assert [(one.what, one.place_id) for one in told] == [
        ("opening diameter", "a"),
        ("opening diameter", "b"),
        ("hose", "a"),
        ("hose", "b"),
    ]


def test_where_the_work_ran_out_nothing_is_asked() -> None:
    spent = Allowance(whole_rows=1, spent_rows=1)
    assert rank_measurements(places=[CLOSE], running_clearance_mm=0.5, allowance=spent) == ()
    nearly = Allowance(whole_rows=1)
    assert rank_measurements(places=[CLOSE], running_clearance_mm=0.5, allowance=nearly) == ()
    assert (spent.refused_n, nearly.refused_n) == (1, 1)
