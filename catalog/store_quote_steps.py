"""Where a quote may go, and what stands in the way: days that are past, another quote for the same work."""

from collections.abc import Mapping
from datetime import date, timedelta

from sqlmodel import Session, col, select

from catalog.store_errors import NotInStore, StoreRefused
from catalog.store_rows import QuoteRow
from catalog.store_texts import checked_number
from catalog.store_things import QuoteState

NEXT_STATES: Mapping[QuoteState, tuple[QuoteState, ...]] = {
    QuoteState.DRAFTED: (QuoteState.HANDED_OVER, QuoteState.CALLED_OFF),
    QuoteState.HANDED_OVER: (QuoteState.AGREED, QuoteState.TURNED_DOWN, QuoteState.LAPSED, QuoteState.CALLED_OFF),
    QuoteState.AGREED: (QuoteState.WORK_DONE, QuoteState.CALLED_OFF),
    QuoteState.TURNED_DOWN: (),
    QuoteState.LAPSED: (),
    QuoteState.CALLED_OFF: (),
    QuoteState.WORK_DONE: (),
}
"""Where a quote may go from where it stands; a lapsed or refused one is replaced by a new one."""


def next_quote_states(state: QuoteState) -> tuple[QuoteState, ...]:
    """Where a quote may go from this state."""
    return NEXT_STATES[state]


WITHDRAWN_BY_ANOTHER = (QuoteState.DRAFTED, QuoteState.HANDED_OVER, QuoteState.AGREED)
"""What a quote that replaces another takes it out of; the others are at their end already."""


def row_of(session: Session, id: int) -> QuoteRow:
    row = session.get(QuoteRow, checked_number("quote", id))
    if row is None:
        raise NotInStore(thing=f"quote {id}")
    return row


def row_to_replace(session: Session, id: int) -> QuoteRow:
    """The quote that another is to stand in for: nobody else's any more, until this is done."""
    old = row_of(session, id)
    session.refresh(old, with_for_update=True)
    other = replaced_by(session, id)
    if other is not None:
        rule = f"quote {other} stands in its place already: replace that one"
        raise StoreRefused(thing=f"quote {id}", given="a second quote in its place", rule=rule)
    if old.state == QuoteState.WORK_DONE:
        raise StoreRefused(thing=f"quote {id}", given="a quote in its place", rule="its work is done")
    return old


def replaced_by(session: Session, id: int) -> int | None:
    """The quote that stands in for another; one that was called off or refused itself does not."""
    ended = [QuoteState.CALLED_OFF.value, QuoteState.TURNED_DOWN.value, QuoteState.LAPSED.value]
    query = select(QuoteRow.id).where(QuoteRow.replaces_id == id, col(QuoteRow.state).not_in(ended))
    return session.exec(query.order_by(col(QuoteRow.id).desc())).first()


def refuse_second_yes(session: Session, row: QuoteRow) -> None:
    """Of a quote and the one that replaces it only one is agreed; older stores may hold both as handed over."""
    old = None if row.replaces_id is None else row_of(session, row.replaces_id)
    other = replaced_by(session, row.id or 0)
    if old is not None and old.state in (QuoteState.AGREED, QuoteState.WORK_DONE):
        other = old.id
    if other is not None:
        rule = f"quote {other} is for the same work: call that one off first"
        raise StoreRefused(thing=f"quote {row.id}", given="agreed", rule=rule)


def refuse_old_draft(row: QuoteRow, *, today: date, though_old: bool) -> None:
    if today > row.valid_until and not though_old:
        rule = (
            f"its prices were made to stand until {row.valid_until}: "
            f"make it anew with `--save --replaces {row.id}`, or say --though-old"
        )
        raise StoreRefused(thing=f"quote {row.id}", given=f"handed over on {today}", rule=rule)


def last_day_of(row: QuoteRow, today: date) -> date:
    """Its days are counted from the day it is handed over; a quote that does not say how many keeps its last day."""
    days = row.record.get("valid_days")
    try:
        return today + timedelta(days=days) if isinstance(days, int) else row.valid_until
    except OverflowError:
        return date.max


def refuse_step(row: QuoteRow, to: QuoteState, *, today: date) -> None:
    now = QuoteState(row.state)
    if now is QuoteState.HANDED_OVER and today > row.valid_until and to is not QuoteState.LAPSED:
        rule = f"it stood until {row.valid_until}; save a new quote that replaces it"
        raise StoreRefused(thing=f"quote {row.id}", given=f"{to} on {today}", rule=rule)
    allowed = NEXT_STATES[now]
    if to not in allowed:
        rule = f"from here it goes to {' or '.join(allowed) or 'nowhere'}"
        raise StoreRefused(thing=f"quote {row.id}", given=f"{row.state} -> {to}", rule=rule)
