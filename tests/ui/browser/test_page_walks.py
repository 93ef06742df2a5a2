"""Walks through the page in a real Chromium, in a desktop window and in a narrow one."""

from pathlib import Path
from typing import Any

import pytest

from tests.ui.browser.conftest import opened_window, overflowing, read_download, wait_until_still
from tests.ui.browser.contrasts import pale_words

pytestmark = pytest.mark.browser

TOP = Path(__file__).parents[3]
JOB = TOP / "demo_frames" / "trail-rear-brake.job.yaml"
VISIT = TOP / "demo_frames" / "cockpit-swap.visit.yaml"


def _expect(locator: Any) -> Any:
    from playwright.sync_api import expect

    return expect(locator)


def _open_trail_job(tab: Any) -> None:
    tab.locator("input[type=file]").set_input_files(JOB)
    _expect(tab.get_by_role("status").get_by_text("It fits: Dunmere 4 rear")).to_be_visible()
    wait_until_still(tab)
    _expect(_shown_port(tab, "neck-left")).to_be_visible()


def _close_drawer(tab: Any, *, by_key: bool = False) -> None:
    drawer = tab.get_by_role("dialog")
    if by_key:
        drawer.press("Escape")
    else:
        drawer.get_by_role("button", name="Close").click()
    _expect(drawer).to_be_hidden()


def _go_to(tab: Any, screen: str) -> None:
    opener = tab.locator("[data-testid=stExpandSidebarButton]")
    if opener.is_visible():
        opener.click()
    tab.get_by_role("link", name=screen).click()
    wait_until_still(tab)
    closer = tab.locator("[data-testid=stSidebarCollapseButton] button")
    if closer.is_visible():
        closer.click()


def _shown_port(tab: Any, port_id: str) -> Any:
    """The port in whichever of the two pictures this window shows."""
    return tab.locator(f".picture .port[data-name='{port_id}']:visible").first


def test_a_whole_plan_is_seen_from_a_job_file(window: Any) -> None:
    _open_trail_job(window)
    for words in ("Feed from", "Cut the old line", "Next: step 1"):
        _expect(window.get_by_text(words).first).to_be_visible()
    assert overflowing(window) == []


def _bottom_px(locator: Any) -> float:
    seen = locator.bounding_box()
    assert seen is not None
    return float(seen["y"] + seen["height"])


def test_what_matters_is_seen_without_scrolling(window: Any) -> None:
    """Verdict, joint, both ends, cut length; on a desk the side view and the next action too."""
    _open_trail_job(window)
    fold_px = window.viewport_size["height"]
    wanted = [window.get_by_role("status"), window.locator(".lp-facts dd").nth(4)]
    if window.viewport_size["width"] > 1000:
        wanted += [window.locator(".lp-next"), window.locator(".picture svg:visible").first]
        wanted += [window.get_by_role("button", name="Job card (PDF)")]
    assert [_bottom_px(one) <= fold_px for one in wanted] == [True] * len(wanted)


def test_clicking_a_port_in_the_picture_opens_its_section(window: Any) -> None:
    _open_trail_job(window)
    _shown_port(window, "stay-rear").click()
    drawer = window.get_by_role("dialog")
    _expect(drawer.get_by_role("heading", name="Chainstay, rear left")).to_be_visible()
    _expect(drawer.get_by_text("While drawing").first).to_be_visible()
    _close_drawer(window)
    window.get_by_role("tab", name="Holes").click()
    _expect(window.get_by_role("combobox", name="Port shown")).to_have_value("Chainstay, rear left")


def test_a_finger_that_misses_a_port_finds_the_nearest(window: Any) -> None:
    _open_trail_job(window)
    port = _shown_port(window, "neck-left")
    port.scroll_into_view_if_needed()
    seen = port.bounding_box()
    window.mouse.click(seen["x"] + seen["width"] / 2 + 18, seen["y"] + seen["height"] / 2)
    _expect(window.get_by_role("dialog").get_by_role("heading", name="Down tube, upper left")).to_be_visible()


def test_a_port_can_be_picked_by_keyboard(window: Any) -> None:
    _open_trail_job(window)
    port = _shown_port(window, "belly-left")
    port.focus()
    port.press("Enter")
    _expect(window.get_by_role("dialog").get_by_role("heading", name="Down tube, lower left")).to_be_visible()
    _close_drawer(window, by_key=True)
    _expect(_shown_port(window, "belly-left")).to_have_attribute("aria-pressed", "true")


def test_the_list_of_ports_moves_the_ring_in_the_picture(window: Any) -> None:
    _open_trail_job(window)
    window.get_by_role("tab", name="Holes").click()
    ports = window.get_by_role("combobox", name="Port shown")
    ports.focus()  # scrolls there first: a list that is open while the page scrolls closes again
    ports.press("ArrowDown")
    window.get_by_role("option", name="Chainstay, front left").click()
    wait_until_still(window)
    _expect(_shown_port(window, "stay-front")).to_have_attribute("aria-pressed", "true")


def test_the_job_is_still_in_its_form_after_a_hole_was_looked_at(window: Any) -> None:
    _open_trail_job(window)
    _shown_port(window, "stay-rear").click()
    _expect(window.get_by_role("dialog")).to_be_visible()
    _close_drawer(window)
    window.get_by_role("button", name="Change the job").click()
    _expect(window.get_by_role("combobox", name="Frame")).to_have_value("Quillfern 130 trail frame (invented)")
    _expect(window.get_by_role("combobox", name="Line starts at")).to_have_value("Right lever")
    assert overflowing(window) == []


@pytest.mark.parametrize("_time", range(2))
def test_a_slow_browser_does_not_lose_the_job(browser: Any, page_address: str, _time: int) -> None:
    """A click before the form was ever shown sent its choices back empty: a job lost in two clicks of six."""
    for window in opened_window(browser, page_address, width_px=1280):
        window.context.new_cdp_session(window).send("Emulation.setCPUThrottlingRate", {"rate": 8})
        _open_trail_job(window)
        _shown_port(window, "stay-rear").click()
        _expect(window.get_by_role("dialog")).to_be_visible()
        _expect(window.get_by_role("status").get_by_text("It fits: Dunmere 4 rear")).to_be_visible()


def test_what_is_typed_last_counts_when_the_form_is_put_away(window: Any) -> None:
    _open_trail_job(window)
    window.get_by_role("button", name="Change the job").click()
    window.get_by_text("Lines that stay, rotor, what is allowed").click()
    window.get_by_role("textbox", name="Rotor wanted, mm").fill("large")
    window.get_by_role("tab", name="Lengths").click()
    _expect(window.get_by_role("status").get_by_text("the rotor wanted is not a number")).to_be_visible()


def test_steps_lengths_and_all_ways_are_a_tab_away(window: Any) -> None:
    _open_trail_job(window)
    for tab, words in (
        ("Lengths", "Nominal"),
        ("All ways", "One way along its places"),
        ("Steps", "repeats of what fails"),
    ):
        window.get_by_role("tab", name=tab).click()
        _expect(window.get_by_text(words).first).to_be_visible()
        assert overflowing(window) == [], tab


def test_the_plan_can_be_saved(window: Any) -> None:
    _open_trail_job(window)
    window.get_by_role("tab", name="Files").click()
    view = read_download(window, window.get_by_role("button", name="Side view (SVG)").click)
    assert view.decode().startswith("<svg xmlns=")
    card = read_download(window, window.get_by_role("button", name="Job card (PDF)").click)
    assert card.startswith(b"%PDF")


def test_several_lines_are_opened_looked_at_and_changed(window: Any) -> None:
    window.locator("input[type=file]").set_input_files(VISIT)
    _expect(window.get_by_role("status").get_by_text("all lines go in, in this order")).to_be_visible()
    _expect(window.get_by_text("lamp in before rear-brake").first).to_be_visible()
    wait_until_still(window)
    _expect(window.locator(".picture .letter[data-name='lamp']:visible").nth(2)).to_be_visible()
    assert overflowing(window) == []
    assert pale_words(window) == []
    for tab, words in (("Each line", "It fits"), ("Files", "Labels of the lines to cut"), ("Steps", "What can hurt")):
        window.get_by_role("tab", name=tab).click()
        _expect(window.get_by_text(words).locator("visible=true").first).to_be_visible()
        assert overflowing(window) == [], tab
    window.get_by_role("button", name="Change the lines").click()
    window.get_by_role("textbox", name="Line 3 is called").fill("Rear lamp")
    window.get_by_role("button", name="Find the order").click()
    _expect(window.get_by_text("rear-lamp in before rear-brake").first).to_be_visible()


def test_the_quick_question_is_answered_with_a_picture(window: Any) -> None:
    _go_to(window, "Will it pass?")
    for label, size in (("Length along the tube, mm", "19"), ("Width, mm", "7,5"), ("Thing 1, Ø mm", "5.2")):
        field = window.get_by_role("textbox", name=label)
        field.fill(size)
        field.press("Enter")
        wait_until_still(window)
    _expect(window.get_by_text("Read as 7.5 mm")).to_be_visible()
    _expect(window.get_by_role("status").get_by_text("It passes: 5.2 mm through slot 19x7.5 mm.")).to_be_visible()
    window.get_by_role("button", name="oval: an ellipse with two axes").press("Enter")
    _expect(window.get_by_role("status").get_by_text("It passes: 5.2 mm through oval 19x7.5 mm.")).to_be_visible()
    _expect(window.locator(".picture svg:visible").first).to_be_visible()
    assert overflowing(window) == []


def test_a_value_measured_at_the_bench_changes_the_verdict(browser: Any, page_address: str) -> None:
    for window in opened_window(browser, page_address, width_px=820):
        window.locator("input[type=file]").set_input_files(JOB.with_name("touring-unmeasured.job.yaml"))
        verdict = window.get_by_role("status")
        _expect(verdict.get_by_text("Not proven")).to_be_visible()
        field = window.get_by_role("textbox", name="Chainstay, front right: hole measured, mm")
        for typed, told in (("8,1", "It fits"), ("3,5", "No plan"), ("slot 9x8,2", "It fits")):
            field.fill(typed)
            field.press("Tab")
            _expect(verdict.get_by_text(told)).to_be_visible()
            wait_until_still(window)
        window.get_by_role("button", name="Write it into the frame").click()
        _expect(window.get_by_text("shape slot, length 9, width 8.2, tolerance 0.1")).to_be_visible()
        assert overflowing(window) == []


def test_a_file_with_mistakes_shows_every_one_of_them(window: Any, tmp_path: Path) -> None:
    wrong = tmp_path / "mine.yaml"
    wrong.write_text("format: 1\nlines:\n  - {id: a, name: A, kind: hose, outer: 0.2}\n  - {id: b, nam: B}\n")
    _go_to(window, "Check files")
    window.locator("input[type=file]").set_input_files(wrong)
    _expect(window.get_by_text("things are not right.")).to_be_visible()
    _expect(window.get_by_text("mine.yaml, line 4").first).to_be_visible()
    assert overflowing(window) == []


def test_the_catalog_shows_a_frame(window: Any) -> None:
    _go_to(window, "Catalog")
    window.get_by_role("link", name="Show").first.click()
    _expect(window.locator(".picture svg:visible").first).to_be_visible()
    assert overflowing(window) == []


@pytest.mark.parametrize("name", ["![x](http:evil.invalid).yaml", "<img src='http:evil.invalid'>.yaml"])
def test_the_name_of_a_file_is_never_markup(window: Any, name: str) -> None:
    """What the window fetches from elsewhere is told when it is closed."""
    _go_to(window, "Check files")
    window.locator("input[type=file]").set_input_files(
        {"name": name, "mimeType": "application/yaml", "buffer": b"format: 1\nlines:\n  - {id: b, nam: B}\n"}
    )
    _expect(window.get_by_text("not right.")).to_be_visible()
    _expect(window.get_by_text("line 3)").first).to_contain_text("evil.invalid")
    assert window.locator("[data-testid=stMain] img").count() == 0


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_pictures_follow_the_dark(browser: Any, page_address: str, scheme: str) -> None:
    for tab in opened_window(browser, page_address, width_px=1280, color_scheme=scheme):
        _open_trail_job(tab)
        paper = tab.locator(".picture svg:visible").first.locator("rect").first
        colour = paper.evaluate("one => getComputedStyle(one).fill")
        assert colour == {"light": "rgb(252, 251, 248)", "dark": "rgb(25, 30, 35)"}[scheme]
