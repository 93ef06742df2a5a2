"""Walks through what the page keeps, and who it lets in, in a real Chromium."""

from pathlib import Path
from typing import Any

import pytest

from tests.ui.browser.conftest import opened_window, overflowing, served, wait_until_still
from ui.shared.page_start import LAN_VARIABLE
from ui.shared.passphrase import keep_passphrase

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

TOP = Path(__file__).parents[3]
JOB = TOP / "demo_frames" / "trail-rear-brake.job.yaml"


def _expect(locator: Any) -> Any:
    from playwright.sync_api import expect

    return expect(locator)


def test_a_job_is_kept_over_a_reload_saved_and_worked_by_at_the_bench(browser: Any, page_address: str) -> None:
    for window in opened_window(browser, page_address, width_px=1280):
        verdict = window.get_by_role("status").get_by_text("It fits: Dunmere 4 rear")
        window.locator("input[type=file]").set_input_files(JOB)
        _expect(verdict).to_be_visible()
        window.wait_for_url("**/?draft=*")
        window.reload()
        _expect(verdict).to_be_visible()
        window.get_by_role("link", name="Will it pass?").click()
        _expect(window.get_by_text("Round things side by side")).to_be_visible()
        window.go_back()
        _expect(verdict).to_be_visible()
        wait_until_still(window)
        window.get_by_role("button", name="Save", exact=True).click()
        window.get_by_role("button", name="Save the job and its plan").click()
        _expect(window.get_by_text("Kept: Stronger rear brake")).to_be_visible()
        window.get_by_role("link", name="Show it among the jobs").click()
        _expect(window.get_by_role("button", name="Take to the bench")).to_be_visible()
        assert overflowing(window) == []
        window.set_viewport_size({"width": 820, "height": 1180})
        window.get_by_role("link", name="Steps at the bench").click()
        _expect(window.get_by_text("Step 1 of 57")).to_be_visible()
        wait_until_still(window)
        window.keyboard.press("ArrowRight")
        _expect(window.get_by_text("Step 2 of 57")).to_be_visible()
        assert window.get_by_role("button", name="Done").bounding_box()["height"] >= 72
        assert overflowing(window) == []


def test_in_the_network_the_page_opens_to_who_knows_the_passphrase(
    browser: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    keep_passphrase("three small olives", file=tmp_path / "lineplan" / "page-passphrase.json")
    for address in served(tmp_path, {LAN_VARIABLE: "127.0.0.1"}):
        context = browser.new_context(viewport={"width": 420, "height": 900})
        window = context.new_page()
        window.goto(f"{address}/jobs")
        words = window.get_by_label("The workshop's passphrase")
        words.fill("three large olives")
        words.press("Enter")
        _expect(window.get_by_role("alert")).to_have_text("These are not the words.")
        words.fill("three small olives")
        words.press("Enter")
        _expect(window.get_by_text("No job is kept here yet")).to_be_visible()
        window.goto(f"{address}/out")
        _expect(words).to_be_visible()
        context.close()


def test_many_frames_are_decided_and_a_pair_is_opened(browser: Any, page_address: str) -> None:
    for window in opened_window(browser, page_address, width_px=1280):
        window.goto(f"{page_address}/frames_and_brakes")
        words = window.get_by_label("Brakes", exact=True)
        words.fill("dunmere")
        words.press("Enter")
        _expect(window.get_by_text("12 frames against 1 brake: 12 pairs")).to_be_visible()
        window.get_by_label("Who").fill("Mira")
        window.get_by_label("Who").press("Enter")
        window.get_by_role("button", name="Decide them all").click()
        window.wait_for_url("**table=*")
        _expect(window.get_by_role("heading", name="12 frames against 1 brake")).to_be_visible()
        _expect(window.locator(".st-key-table_matrix svg:visible title").first).to_be_attached()
        window.get_by_role("tab", name="What to measure").click()
        _expect(window.get_by_role("cell", name="Chainstay, front right")).to_be_visible()
        window.get_by_role("tab", name="Pairs").click()
        _expect(window.get_by_role("cell", name="Quillfern 130 trail frame (invented)")).to_be_visible()
        assert overflowing(window) == []
        window.set_viewport_size({"width": 420, "height": 900})
        wait_until_still(window)
        assert overflowing(window) == []
        window.get_by_label("One of these pairs").click()
        window.get_by_role("option", name="Dunmere 4 rear (invented) on Quillfern 130").click()
        window.get_by_role("button", name="Plan this pair").click()
        _expect(window.get_by_role("status").get_by_text("Dunmere 4 rear")).to_be_visible()
