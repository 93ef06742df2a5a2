"""Quotes: frozen once handed over, every step told, the same a year later."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import date
from decimal import Decimal
from threading import Barrier
from typing import Any

import pytest
from sqlalchemy import text

from catalog.store import Store, open_store
from catalog.store_address import url_of_store
from catalog.store_engine import make_engine, writing
from catalog.store_errors import EditConflict, NotInStore, StoreRefused
from catalog.store_quote_steps import NEXT_STATES
from catalog.store_things import Pin, QuoteDraft, QuoteState
from tests.catalog.store.conftest import Clock
from tests.catalog.store.test_documents import hose

DAY = date(2031, 3, 14)
PIN = Pin(kind="line", id="hose-50", revision=1)


def draft(store: Store, **more: Any) -> QuoteDraft:
    """A quote made from one hose and one plan that the store holds."""
    if not store.documents.list_current():
        store.documents.save(hose(5.0), by="Mira")
        store.jobs.save(id="swap", title="Rear swap", content={}, by="Mira")
        store.plans.save(job_id="swap", job_version=1, record={"outcome": "fits"}, pins=[PIN], by="Mira")
    given = {
        "for_whom": "Łucja Żółć",
        "record": {"lines": [{"text": "Brake hose", "price": "12.50"}], "total": "61.40"},
        "total": Decimal("61.40"),
        "currency": "EUR",
        "valid_until": date(2031, 4, 13),
        "pins": (PIN,),
        "plan_ids": (1,),
    }
    return QuoteDraft(**{**given, **more})


def handed_over(store: Store) -> int:
    quote = store.quotes.save(draft(store), by="Mira")
    return store.quotes.move(quote.id, QuoteState.HANDED_OVER, today=DAY, based_on=1, by="Mira").id


def test_a_quote_says_the_same_a_year_later(store: Store, clock: Clock) -> None:
    wanted = draft(store)
    id = handed_over(store)
    clock.advance(days=365)
    store.documents.save(hose(9.9, based_on=1), by="Jonas", note="another make")
    kept = store.quotes.get(id)
    assert kept.draft == wanted
    assert str(kept.draft.total) == "61.40"
    assert store.documents.at_all(kept.draft.pins)[0].content["outer"] == 5.0


def test_a_draft_may_be_rewritten_and_is_then_frozen(store: Store) -> None:
    quote = store.quotes.save(draft(store), by="Mira")
    cheaper = draft(store, total=Decimal("59.00"), record={"lines": [], "total": "59.00"}, pins=())
    second = store.quotes.rewrite(quote.id, cheaper, based_on=1, by="Jonas")
    assert (second.version, second.draft) == (2, cheaper)
    store.quotes.move(quote.id, QuoteState.HANDED_OVER, today=DAY, based_on=2, by="Mira")
    with pytest.raises(StoreRefused, match="a change while handed_over was given; only a draft is rewritten"):
        store.quotes.rewrite(quote.id, cheaper, based_on=3, by="Jonas")


def test_what_was_handed_over_cannot_be_changed_by_hand_either(store: Store, store_place: str) -> None:
    handed_over(store)
    engine = make_engine(url_of_store(store_place))
    with pytest.raises(Exception, match="rows of quote are kept as they were saved"), writing(engine) as session:
        session.connection().execute(text("UPDATE quote SET total = '1.00'"))
    with pytest.raises(Exception, match="rows of quote_event are kept"), writing(engine) as session:
        session.connection().execute(text("DELETE FROM quote_event"))


def test_every_step_is_told(store: Store, clock: Clock) -> None:
    id = handed_over(store)
    clock.advance(days=3)
    store.quotes.move(id, QuoteState.AGREED, today=DAY, based_on=2, by="Jonas", note="by telephone")
    store.quotes.move(id, QuoteState.WORK_DONE, today=DAY, based_on=3, by="Mira")
    told = [(h.version, h.state, h.done_by, h.note) for h in store.quotes.history(id)]
    assert told == [
        (1, "drafted", "Mira", ""),
        (2, "handed_over", "Mira", ""),
        (3, "agreed", "Jonas", "by telephone"),
        (4, "work_done", "Mira", ""),
    ]
    assert [quote.id for quote in store.quotes.list(QuoteState.WORK_DONE)] == [id]


@pytest.mark.parametrize("to", [QuoteState.AGREED, QuoteState.TURNED_DOWN, QuoteState.CALLED_OFF])
def test_a_quote_goes_nowhere_after_its_last_day(store: Store, to: QuoteState) -> None:
    id = handed_over(store)
    with pytest.raises(StoreRefused, match=rf"{to} on 2031-04-14 was given; it stood until 2031-04-13"):
        store.quotes.move(id, to, today=date(2031, 4, 14), based_on=2, by="Jonas")
    late = store.quotes.move(id, QuoteState.LAPSED, today=date(2031, 4, 14), based_on=2, by="Jonas")
    assert late.state is QuoteState.LAPSED


def test_a_quote_is_agreed_on_its_last_day(store: Store) -> None:
    id = handed_over(store)
    agreed = store.quotes.move(id, QuoteState.AGREED, today=date(2031, 4, 13), based_on=2, by="Jonas")
    assert agreed.state is QuoteState.AGREED
    assert agreed.state_on(date(2032, 1, 1)) is QuoteState.AGREED


def test_its_days_are_counted_from_the_day_it_is_handed_over(store: Store) -> None:
    record = {"valid_days": 30, "total": "61.40"}
    quote = store.quotes.save(draft(store, record=record), by="Mira")
    handed = store.quotes.move(quote.id, QuoteState.HANDED_OVER, today=date(2031, 4, 10), based_on=1, by="Mira")
    assert handed.draft.valid_until == date(2031, 5, 10)
    assert handed.state_on(date(2031, 5, 10)) is QuoteState.HANDED_OVER
    assert handed.state_on(date(2031, 5, 11)) is QuoteState.LAPSED


def test_a_draft_whose_days_are_past_is_not_handed_over_without_a_word(store: Store) -> None:
    quote = store.quotes.save(draft(store), by="Mira")
    late = {"today": date(2031, 4, 14), "based_on": 1, "by": "Mira"}
    with pytest.raises(StoreRefused, match="its prices were made to stand until 2031-04-13: make it anew"):
        store.quotes.move(quote.id, QuoteState.HANDED_OVER, **late)
    handed = store.quotes.move(quote.id, QuoteState.HANDED_OVER, though_old=True, **late)
    assert handed.state is QuoteState.HANDED_OVER


def test_a_lapsed_quote_is_replaced_and_stays_lapsed(store: Store) -> None:
    id = handed_over(store)
    store.quotes.move(id, QuoteState.LAPSED, today=date(2031, 4, 14), based_on=2, by="Mira")
    again = store.quotes.save(draft(store, replaces_id=id, valid_until=date(2031, 5, 30)), by="Mira")
    assert (again.draft.replaces_id, again.state) == (id, QuoteState.DRAFTED)
    assert store.quotes.get(id).state is QuoteState.LAPSED


@pytest.mark.parametrize("steps", [(), (QuoteState.HANDED_OVER,), (QuoteState.HANDED_OVER, QuoteState.AGREED)])
def test_a_quote_that_replaces_another_calls_it_off(store: Store, steps: tuple[QuoteState, ...]) -> None:
    old = store.quotes.save(draft(store), by="Mira")
    for based_on, to in enumerate(steps, start=1):
        store.quotes.move(old.id, to, today=DAY, based_on=based_on, by="Mira")
    new = store.quotes.save(draft(store, replaces_id=old.id), by="Jonas")
    now = store.quotes.get(old.id)
    assert (now.state, now.replaced_by_id) == (QuoteState.CALLED_OFF, new.id)
    last = store.quotes.history(old.id)[-1]
    assert (last.done_by, last.note) == ("Jonas", f"replaced by quote {new.id}")
    with pytest.raises(StoreRefused, match="from here it goes to nowhere"):
        store.quotes.move(old.id, QuoteState.AGREED, today=DAY, based_on=now.version, by="Mira")


def test_a_quote_is_replaced_once_and_not_when_its_work_is_done(store: Store) -> None:
    id = handed_over(store)
    second = store.quotes.save(draft(store, replaces_id=id), by="Mira")
    with pytest.raises(StoreRefused, match=f"quote {second.id} stands in its place already: replace that one"):
        store.quotes.save(draft(store, replaces_id=id), by="Mira")
    for based_on, to in enumerate((QuoteState.HANDED_OVER, QuoteState.AGREED, QuoteState.WORK_DONE), start=1):
        store.quotes.move(second.id, to, today=DAY, based_on=based_on, by="Mira")
    with pytest.raises(StoreRefused, match="its work is done"):
        store.quotes.save(draft(store, replaces_id=second.id), by="Mira")
    assert len(store.quotes.list()) == 2


def test_of_two_that_replace_one_at_once_one_is_refused(store: Store, store_place: str) -> None:
    id, wanted = handed_over(store), draft(store)
    start = Barrier(2)

    def replace_it(name: str) -> str:
        with open_store(store_place) as own:
            start.wait()
            try:
                own.quotes.save(replace(wanted, replaces_id=id), by=name)
            except StoreRefused:
                return "refused"
        return "kept"

    with ThreadPoolExecutor(2) as pool:
        assert sorted(pool.map(replace_it, ("Mira", "Jonas"))) == ["kept", "refused"]
    assert len(store.quotes.list()) == 2


def test_where_an_older_store_holds_both_as_handed_over_only_one_is_agreed(store: Store, store_place: str) -> None:
    old = handed_over(store)
    new = store.quotes.save(draft(store, replaces_id=old), by="Mira")
    with writing(make_engine(url_of_store(store_place))) as session:
        session.connection().execute(text("UPDATE quote SET state = 'handed_over'"))
    with pytest.raises(StoreRefused, match=f"quote {new.id} is for the same work: call that one off first"):
        store.quotes.move(old, QuoteState.AGREED, today=DAY, based_on=3, by="Mira")
    with writing(make_engine(url_of_store(store_place))) as session:
        session.connection().execute(text(f"UPDATE quote SET state = 'agreed' WHERE id = {old}"))
    with pytest.raises(StoreRefused, match=f"quote {old} is for the same work: call that one off first"):
        store.quotes.move(new.id, QuoteState.AGREED, today=DAY, based_on=1, by="Mira")


def test_two_people_move_a_quote_and_the_later_is_told(store: Store) -> None:
    id = handed_over(store)
    store.quotes.move(id, QuoteState.TURNED_DOWN, today=DAY, based_on=2, by="Jonas")
    with pytest.raises(EditConflict, match=f"quote {id}: you opened revision 2; revision 3 .*Jonas.*now turned_down"):
        store.quotes.move(id, QuoteState.AGREED, today=DAY, based_on=2, by="Mira")


@pytest.mark.parametrize("state", QuoteState)
def test_no_state_leads_back_to_a_draft(state: QuoteState) -> None:
    assert QuoteState.DRAFTED not in NEXT_STATES[state]


def test_a_step_that_is_not_allowed_says_which_are(file_store: Store) -> None:
    file_store.quotes.save(draft(file_store), by="Mira")
    with pytest.raises(
        StoreRefused, match="drafted -> agreed was given; from here it goes to handed_over or called_off"
    ):
        file_store.quotes.move(1, QuoteState.AGREED, today=DAY, based_on=1, by="Mira")


def test_a_quote_points_only_at_what_is_there(store: Store) -> None:
    good = draft(store)
    for wrong, said in (
        (replace(good, pins=(Pin(kind="line", id="hose-50", revision=8),)), "line hose-50, revision 8"),
        (replace(good, plan_ids=(77,)), "plan 77"),
        (replace(good, replaces_id=5), "quote 5"),
    ):
        with pytest.raises(NotInStore, match=said):
            store.quotes.save(wrong, by="Mira")
    assert store.quotes.list() == ()


@pytest.mark.parametrize("total", [61.4, Decimal("NaN"), Decimal("Infinity")])
def test_money_is_a_finite_decimal(store: Store, total: Any) -> None:
    with pytest.raises(StoreRefused, match=r"money: .* was given; it must be a finite decimal number"):
        store.quotes.save(draft(store, total=total), by="Mira")
