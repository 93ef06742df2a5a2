"""The one clock: what moment it is, and which day that is in the shop.

The shop's day is by its own time zone (`shop: {time_zone: ...}`), or by this machine's where the shop names none. Days
of quotes are counted in it from first to last; moments are kept in UTC and told in it.
"""

from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from ui.shared.command_refused import CommandRefused

if TYPE_CHECKING:
    from catalog import Store


def now() -> datetime:
    """The moment it is."""
    return datetime.now(UTC)


def today_in(time_zone: str) -> date:
    """The day it is in a time zone; "" for this machine's own."""
    return in_zone(now(), time_zone).date()


def in_zone(moment: datetime, time_zone: str) -> datetime:
    """A moment by the clock on the shop's wall."""
    return moment.astimezone(ZoneInfo(time_zone) if time_zone else None)


def time_zone_of(store: "Store") -> str:
    """The shop's time zone as the store's catalog has it; "" for none."""
    shops = store.documents.list_current("shop")
    return str(shops[0].content.get("time_zone") or "") if shops else ""


def told_moment(moment: datetime, time_zone: str) -> str:
    """A moment as the shop reads it, to the minute, with its zone."""
    return f"{in_zone(moment, time_zone):%Y-%m-%d %H:%M %Z}"


def day_named(text: str | None, *, command: str) -> date | None:
    """The day named as year-month-day; None where none is."""
    if text is None:
        return None
    try:
        return datetime.strptime(text, "%Y-%m-%d").date()
    except ValueError as error:
        raise CommandRefused(
            command=command, option="date", given=f"{text} was given", allowed="a day such as 2031-03-14"
        ) from error


def last_day(day: date, *, days: int) -> date:
    """The day that many days later; one that no calendar has is refused."""
    try:
        return day + timedelta(days=days)
    except OverflowError as error:
        raise CommandRefused(
            command="quote", option="date", given=f"{day} and {days} days more", allowed="days up to 9999-12-31"
        ) from error
