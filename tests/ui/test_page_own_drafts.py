"""Forms that belong to one thing keep what is typed under its name: a reload or another window finds it there."""

from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from catalog import Change, Store, open_store
from tests.ui.page_builders import box, button, choose_tab, open_page, words_of
from ui.page import draft_form, entry_draft, hand_over_draft, job_draft, told_here, visit_session
from ui.page.forms.cuts_form import CUTS_FORM
from ui.page.forms.quote_form import quote_form_of
from ui.page.forms.save_form import SAVE_KEY
from ui.page.forms.table_form import TABLE_FORM
from ui.page.views.job_list import FORM_PAGES
from ui.page.views.shopping_view import SHOPPING_FORM
from ui.shared.store_care import FORM_WORDS

JOB = "trail-rear-brake"
OUTER = "Outer diameter"


def _field(page: AppTest, label: str) -> Any:
    return next(one for one in page.text_input if one.label.startswith(label))


def _job(monkeypatch: pytest.MonkeyPatch, store: Path, **address: str) -> AppTest:
    return open_page(monkeypatch, store=store, screen="jobs", **{"job": JOB, **address})


def _shop(monkeypatch: pytest.MonkeyPatch, store: Path) -> AppTest:
    return open_page(monkeypatch, store=store, screen="shop", catalog=())


def _line(monkeypatch: pytest.MonkeyPatch, store: Path, **address: str) -> AppTest:
    return open_page(monkeypatch, store=store, screen="catalog", catalog=(), kind="line", id="hose-50x21", **address)


def _address(page: AppTest) -> dict[str, str]:
    return {name: value if isinstance(value, str) else value[0] for name, value in page.query_params.items()}


def test_a_half_filled_quote_comes_back_until_it_is_made_and_never_after(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _job(monkeypatch, store)
    assert "Undo" not in [one.label for one in page.button], "looking is no draft"
    box(page, "Paper").select("Letter")
    _field(page, "Workshop, to print").set_value("Workshop *of* nobody").run()
    page.checkbox[0].check().run()
    assert _address(page) == {"job": JOB}
    again = _job(monkeypatch, store)
    assert (box(again, "Paper").value, again.checkbox[0].value) == ("Letter", True)
    for _ in range(2):
        button(again, "Undo").click().run()
    assert (_field(again, "Workshop, to print").value, box(again, "Paper").value) == ("", "A4")
    for _ in range(2):
        button(again, "Redo").click().run()
    assert _field(again, "Workshop, to print").value == "Workshop *of* nobody"
    button(again, "Make the quote").click().run()
    assert not again.exception
    page.run()  # the first window still shows it: it is told, and nothing begins again by looking
    assert "What stands here was saved or put away meanwhile" in words_of(page)
    button(page, "Undo").click().run()
    assert not page.exception
    with open_store(store, create=False) as kept:
        assert kept.drafts.recent("quote", most=9) == ()
        button(page, "Keep it as it stands").click().run()
        (one,) = kept.drafts.recent("quote", most=9)
        assert "Workshop *of* nobody" in kept.drafts.get(one.id).content["choices"].values()


def test_two_windows_at_one_quote_are_told_and_what_one_goes_on_with_is_named_in_its_address(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    one, other = (_job(monkeypatch, store) for _ in range(2))
    _field(one, "Workshop, to print").set_value("North").run()
    _field(other, "Workshop, to print").set_value("South").run()
    assert "What you have here goes on as a draft of its own." in words_of(other)
    address = _address(other)
    assert _field(_job(monkeypatch, store, **address), "Workshop, to print").value == "South"
    with open_store(store, create=False) as kept:
        content = kept.jobs.get(JOB).content
        kept.jobs.save(id="another", title="Another", content={**content, "id": "another"}, by="Mira")
    elsewhere = _job(monkeypatch, store, **{**address, "job": "another"})
    assert "Not opened" in words_of(elsewhere), "a draft of one job is none of another's"
    assert _field(elsewhere, "Workshop, to print").value == ""


def test_the_shops_stock_comes_back_and_starts_with_that_of_a_cut_list_in_the_same_window(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = open_page(monkeypatch, store=store, screen="cuts", catalog=())
    _field(page, "One cut takes").set_value("1,5").run()
    page.switch_page("screens/shop.py").run()
    assert _field(page, "One cut takes").value == "1,5"
    _field(page, "Keep ends from").set_value("90").run()
    page.checkbox[0].check()
    choose_tab(page, "Settings")  # comes with what was chosen last, in one run
    again = _shop(monkeypatch, store)
    assert (_field(again, "One cut takes").value, _field(again, "Keep ends from").value) == ("1,5", "90")
    assert again.checkbox[0].value
    assert again.expander[0].proto.expanded, "what is told lies open"
    button(again, "Undo").click().run()
    assert not again.checkbox[0].value


def test_figures_of_the_shop_are_gone_on_with_until_they_are_saved_or_left(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def opened() -> AppTest:
        page = choose_tab(_shop(monkeypatch, store), "Settings")
        button(page, "Change them").click().run()
        assert not page.exception
        return page

    page = opened()
    assert "draft" not in page.query_params, "looking is no draft"
    _field(page, "Shop's name").set_value("Mine").run()
    with open_store(store, create=False) as kept:
        now = kept.documents.current("shop", "shop")
        content = {**now.content, "name": "Theirs"}
        change = Change(kind="shop", id="shop", name=now.name, content=content, based_on=now.pin.revision)
        kept.documents.save(change, by="Jo")
    page = opened()
    assert _field(page, "Shop's name").value == "Mine"
    told = words_of(page)
    assert "Begun before and not saved yet" in told
    assert "Jo saved revision 2 meanwhile" in told
    button(page, "Go on from theirs").click().run()
    assert _field(page, "Shop's name").value == "Theirs"
    assert "Nothing is changed so far." in words_of(page)
    button(page, "Undo").click().run()
    assert _field(page, "Shop's name").value == "Mine", "what was changed here is not lost"
    button(page, "Leave without saving").click().run()
    page = opened()
    assert _field(page, "Shop's name").value == "Theirs"
    assert "Begun before" not in words_of(page)


def test_an_entry_that_was_saved_does_not_come_back_as_a_draft(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _line(monkeypatch, store)
    button(page, "Change it").click().run()
    _field(page, OUTER).set_value("5,2").run()
    _field(page, "Why, for the history").set_value("measured").run()
    address = _address(page)
    again = _line(monkeypatch, store, draft=address["draft"])
    assert (_field(again, OUTER).value, _field(again, "Why, for the history").value) == ("5.2", "measured")
    button(again, "Save as a new revision").click().run()
    assert "draft" not in again.query_params
    back = _line(monkeypatch, store, draft=address["draft"])  # as the browser's back button asks
    assert "may have been saved since" in words_of(back)
    assert "Change it" in [one.label for one in back.button]
    with open_store(store, create=False) as kept:
        assert kept.documents.history("line", "hose-50x21")[-1].note == "measured"
        assert kept.drafts.recent("entry", most=9) == ()


def test_the_quick_question_comes_back_and_its_first_change_can_be_taken_back(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = open_page(monkeypatch, store=store, screen="will_it_pass")
    assert "draft" not in page.query_params, "looking is no draft"
    page.segmented_control[0].set_value("outline").run()
    page.text_area[0].set_value("0,0 12,0 6,9").run()
    again = open_page(monkeypatch, store=store, screen="will_it_pass", **_address(page))
    assert again.text_area[0].value == "0,0 12,0 6,9", "corners that are not taken over yet, too"
    for _ in range(2):
        button(again, "Undo").click().run()
    assert again.segmented_control[0].value == "slot"


def test_what_a_job_is_to_be_saved_as_comes_back_until_it_is_saved_and_is_no_step_of_it(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _job(monkeypatch, store)
    page.session_state[SAVE_KEY] = True
    button(page, "Plan it in the form").click().run()
    page.switch_page("screens/plan_a_job.py").run()  # the test stays where it was when the page leads on
    title = _field(page, "Title").value
    _field(page, "For whom").set_value("Berta")
    _field(page, "Title").set_value("").run()
    assert button(page, "Undo").disabled
    again = open_page(monkeypatch, store=store, **_address(page))
    again.session_state[SAVE_KEY] = True
    again.run()
    assert (_field(again, "For whom").value, _field(again, "Title").value) == ("Berta", ""), "emptied stays empty"
    _field(again, "Title").set_value(title)
    button(again, "Save the job and its plan").click().run()
    assert not again.exception
    with open_store(store, create=False) as kept:
        assert kept.jobs.get(JOB).for_whom == "Berta"
        assert "beside" not in kept.drafts.get(_address(again)["draft"]).content, "what was saved is no draft"


@pytest.mark.parametrize("screen", ["check_files", "catalog"])
def test_files_that_must_be_sent_again_after_a_reload_are_told_at_their_field(
    screen: str, store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = "What was sent here before the page was loaded anew is gone with it"
    page = open_page(monkeypatch, store=store, screen=screen, catalog=())
    page.file_uploader[0].upload("mine.yaml", b"none", "text/plain").run()
    assert told not in words_of(page)
    again = open_page(monkeypatch, store=store, screen=screen, catalog=(), **_address(page))
    assert told in words_of(again)


def test_every_form_is_asked_about_before_a_store_is_put_back_and_found_again(kept_once: Path) -> None:
    with open_store(kept_once, create=False) as store:
        forms = [*_forms(store)]
    assert {form.name for form in forms} == set(FORM_WORDS)
    assert {form.name for form in forms if not form.is_beside} == set(FORM_PAGES)
    assert all(form.own for form in forms if form.is_beside)


def _forms(store: Store) -> list[draft_form.Form]:
    job = store.jobs.get(JOB)
    named = [job_draft.JOB_FORM, visit_session.VISIT_FORM, told_here.FRAME_FORM, told_here.JOB_FORM, CUTS_FORM]
    beside = [SHOPPING_FORM, quote_form_of(job), hand_over_draft.form_of(job.id, job.title)]
    return [*named, TABLE_FORM, entry_draft.entry_form(), *beside]
