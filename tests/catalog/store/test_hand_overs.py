"""Hand-over records in the store: one more with each save, none changed, two windows told of each other."""

import pytest
from sqlalchemy import text

from catalog.store import Store
from catalog.store_engine import writing
from catalog.store_errors import EditConflict, NotInStore, StoreUnreachable, WrittenMeanwhile
from tests.catalog.store.conftest import Clock


def _job(store: Store) -> None:
    store.jobs.save(id="job-1", title="A job", content={"id": "job-1"}, by="Mira")


def test_each_save_is_one_more_record_and_the_same_again_is_none(store: Store, clock: Clock) -> None:
    _job(store)
    first = store.hand_overs.save("job-1", {"fluid": "DOT 4"}, based_on=0, by="Mira")
    clock.advance(hours=1)
    again = store.hand_overs.save("job-1", {"fluid": "DOT 4"}, based_on=1, by="Ola")
    second = store.hand_overs.save("job-1", {"fluid": "DOT 4, lot 7"}, based_on=1, by="Ola")
    assert (first.version, again, second.version) == (1, first, 2)
    assert store.hand_overs.of_job("job-1") == (first, second)
    assert [one.saved_by for one in store.hand_overs.of_job("job-1")] == ["Mira", "Ola"]
    assert store.check().damages == ()
    assert store.check().counts["hand-over records"] == 2


def test_a_record_over_one_that_is_not_the_last_is_refused(store: Store) -> None:
    _job(store)
    store.hand_overs.save("job-1", {"fluid": "DOT 4"}, based_on=0, by="Mira")
    with pytest.raises(EditConflict, match="hand-over record of job job-1"):
        store.hand_overs.save("job-1", {"fluid": "mineral oil"}, based_on=0, by="Ola")
    with pytest.raises(NotInStore):
        store.hand_overs.save("job-2", {}, based_on=0, by="Ola")
    assert len(store.hand_overs.of_job("job-1")) == 1


def test_a_record_is_never_changed(store: Store) -> None:
    _job(store)
    store.hand_overs.save("job-1", {"fluid": "DOT 4"}, based_on=0, by="Mira")
    with (
        pytest.raises((StoreUnreachable, WrittenMeanwhile), match="kept as they were saved"),
        writing(store._engine) as session,
    ):
        session.connection().execute(text("UPDATE hand_over SET saved_by = 'Ola'"))
