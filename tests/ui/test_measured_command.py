"""`lineplan measured`: a value read at the bench goes back into its frame, with who, when and with what."""

import shutil
from pathlib import Path

import pytest

from catalog import read_catalog
from tests.ui.shop_samples import DEMO, done, lineplan, refused

TOURING = DEMO / "touring-unmeasured.job.yaml"
FRAME, HOLE = "jessamund-700", "stay-front"
WHO = ("--by", "Mira", "--date", "2031-03-14", "--with", "drill shanks")


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    """A copy of the touring frame's file, one hole of which nobody measured."""
    return Path(shutil.copy(DEMO / "touring.frame.yaml", tmp_path / "mine.frame.yaml"))


def test_the_value_and_its_reading_stand_in_the_file_and_every_comment_stays(mine: Path) -> None:
    before = mine.read_text(encoding="utf-8")
    told = done("measured", FRAME, HOLE, "round 6.2", "--tolerance", "0.05", *WHO, "-c", mine)
    assert told == (f"jessamund-700, stay-front: opening round 6.2; before: not measured.\nWritten into {mine}.\n")
    after = mine.read_text(encoding="utf-8")
    added = [line.strip() for line in after.splitlines() if line not in before.splitlines()]
    assert added == [
        "opening: {shape: round, diameter: 6.2, tolerance: 0.05}",
        "readings:",
        "- {what: opening, value: round 6.2, by: Mira, on: 2031-03-14, tool: drill shanks}",
    ]
    assert [line for line in before.splitlines() if line not in after.splitlines()] == []


def test_the_plan_that_was_not_proven_is_proven_with_it(mine: Path) -> None:
    frames = ("-c", mine)
    assert lineplan("plan", TOURING, *frames).exit_code == 3
    done("measured", FRAME, HOLE, "round 6.2", *WHO, *frames)
    assert done("plan", TOURING, *frames).count("It fits") == 1


def test_readings_are_kept_in_the_order_they_were_taken(mine: Path) -> None:
    done("measured", FRAME, HOLE, "round 6.2", *WHO, "-c", mine)
    told = done("measured", FRAME, HOLE, "slot 8x6.1", *WHO, "-c", mine)
    assert "before: shape round, diameter 6.2." in told
    (frame,) = read_catalog([mine]).entries.frames
    (port,) = (port for port in frame.ports if port.id == HOLE)
    assert [reading.value for reading in port.readings] == ["round 6.2", "slot 8x6.1"]
    assert port.opening is not None
    assert port.opening.shape == "slot"


@pytest.mark.parametrize(
    ("place", "what", "value", "field"),
    [
        ("neck-right", "lean", "20,5", "tilt: 20.5"),
        ("neck-right", "wall", "2", "wall: 2"),
        ("stay-run", "length", "402", "length: 402"),
        ("stay-run", "bore", "6.1", "bore: 6.1"),
        ("stay-run", "bend", "280", "bend_radius: 280"),
        ("stay_right", "cavity", "18..20", "bore: 18..20"),
        (HOLE, "looks", "along", "looks: along"),
    ],
)
def test_other_figures_go_into_their_own_fields(place: str, what: str, value: str, field: str, mine: Path) -> None:
    done("measured", FRAME, place, value, "--as", what, *WHO, "-c", mine)
    assert field in mine.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (("nobody", HOLE, "round 6"), "frame: nobody is in none of the files, allowed: jessamund-700"),
        ((FRAME, "nowhere", "round 6"), "nowhere has no opening, allowed: neck-right, belly-right, stay-front"),
        ((FRAME, HOLE, "60", "--as", "length"), "stay-front has no length, allowed: cockpit, down-run"),
        ((FRAME, HOLE, "slot 6", "--as", "insert"), "'slot 6' does not give sizes above zero for a slot"),
        ((FRAME, HOLE, "round 6", "--as", "insert"), "it has no insert"),
        ((FRAME, HOLE, "round 6.2mm"), "allowed: round D, slot LxW"),
        ((FRAME, HOLE, "95", "--as", "lean"), "tilt: 95 degrees was given, 0 to less than 90 degrees is allowed"),
        ((FRAME, HOLE, "thick", "--as", "wall"), "thick was given, allowed: a number"),
        ((FRAME, HOLE, "inf", "--as", "wall"), "wall: an endless number was given, 0.3 to 60 mm"),
        ((FRAME, HOLE, "1.2", "--as", "wall", "--tolerance", "1"), "only the sizes of a hole have one here"),
        ((FRAME, HOLE, "round 900"), "900 mm was given"),
        ((FRAME, HOLE, "sideways", "--as", "looks"), "sideways was given, allowed: side or along"),
        ((FRAME, HOLE, "20", "--as", "cavity"), "stay-front has no cavity, allowed: "),
    ],
)
def test_what_cannot_be_taken_is_refused_and_the_file_left_alone(
    words: tuple[str, ...], complaint: str, mine: Path
) -> None:
    before = mine.read_bytes()
    assert complaint in refused("measured", *words, *WHO, "-c", mine)
    assert mine.read_bytes() == before


def test_into_the_store_it_goes_as_a_revision_that_can_be_taken_back(store: Path) -> None:
    told = done("measured", "quillfern-130", HOLE, "round 6.6", *WHO, "--store", store)
    assert "Written into the store as frame quillfern-130, revision 2" in told
    history = done("store", "history", "frame", "quillfern-130", "--store", store)
    assert "Mira" in history
    assert "stay-front: opening read as round 6.6 with drill shanks" in history
    assert (
        "round 6.6" in done("plan", "trail-rear-brake", "--all", "--store", store)
        or lineplan("save", "trail-rear-brake", "--store", store, "--by", "Mira").exit_code == 0
    )
    done("store", "back", "frame", "quillfern-130", "1", "--store", store, "--by", "Mira")


def test_a_value_the_store_s_frame_cannot_have_is_refused(store: Path) -> None:
    told = refused("measured", "quillfern-130", HOLE, "95", "--as", "lean", *WHO, "--store", store)
    assert "95 degrees was given" in told
    assert "nobody is not in the store" in refused("measured", "nobody", HOLE, "round 6", *WHO, "--store", store)


def test_without_a_file_and_without_a_store_it_says_where_to_write(tmp_path: Path) -> None:
    told = refused("measured", FRAME, HOLE, "round 6", *WHO, "--store", tmp_path / "none.sqlite")
    assert "-c with the file that holds the frame" in told


@pytest.mark.parametrize(
    ("place", "what", "value", "field"),
    [
        (HOLE, "opening", "goes 6.2", "opening: {at_least: 6.2}"),
        (HOLE, "opening", "round 6..6.4", "opening: {shape: round, diameter: 6.2, tolerance: 0.2"),
        ("neck-right", "lean", "20..30", "tilt: 20..30"),
        ("stay-run", "length", "400..404", "length: 400..404"),
    ],
)
def test_what_went_in_and_what_is_known_as_a_range_stay_that(
    place: str, what: str, value: str, field: str, mine: Path
) -> None:
    done("measured", FRAME, place, value, "--as", what, *WHO, "-c", mine)
    assert field in mine.read_text(encoding="utf-8")


def test_a_range_has_no_tolerance_beside_it(mine: Path) -> None:
    words = (FRAME, HOLE, "round 6..6.4", "--tolerance", "0.1", *WHO, "-c", mine)
    assert "given beside a range, allowed: the range alone" in " ".join(refused("measured", *words).split())
