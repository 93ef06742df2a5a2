"""The day that is printed: the one named, or today by the clock of this machine; and moments as the store has them."""

from datetime import date, datetime, timedelta

from ui.shared.command_refused import CommandRefused


def day_of(text: str | None, *, command: str) -> date:
    """The day named as year-month-day; today where none is."""
    if text is None:
        return datetime.now().astimezone().date()
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


def moment(when: datetime) -> str:
    """A moment as the store tells it: to the minute, in UTC."""
    return f"{when:%Y-%m-%d %H:%M} UTC"
