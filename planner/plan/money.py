"""Money: exact decimals, rounded to the coin the shop counts in."""

from decimal import ROUND_HALF_UP, Decimal, InvalidOperation

from planner.errors import ImpossibleDimensionError


def read_money(text: str) -> Decimal | None:
    """An amount of money as it is written in the catalog.

    None where nothing is priced: it is never nought.

    text : decimal text such as "1.20"; "" where nothing is priced

    Examples
    --------
    >>> read_money("1.20")
    Decimal('1.20')

    Raises ImpossibleDimensionError when the text is no amount, or a negative one.
    """
    if not text.strip():
        return None
    try:
        amount = Decimal(text.strip())
    except InvalidOperation:
        amount = Decimal("NaN")
    if not amount.is_finite() or amount < 0:
        raise ImpossibleDimensionError(
            name=f"price {text.strip()!r}",
            value=float(amount),
            unit="",
            rule="must be an amount of money, such as 1.20",
        )
    return amount


def round_money(amount: Decimal, *, step: Decimal) -> Decimal:
    """An amount in whole coins, halves away from zero.

    Returns a whole multiple of the step, with as many decimals as the step has.

    step : the smallest coin counted, such as 0.01 or 0.05

    Examples
    --------
    >>> round_money(Decimal("1.225"), step=Decimal("0.05"))
    Decimal('1.25')

    Raises ImpossibleDimensionError when the step is not above zero.
    Raises TypeError when either is a float: money is never one.
    """
    for value in (amount, step):
        if not isinstance(value, Decimal):
            raise TypeError(f"money is exact: {value!r} is a {type(value).__name__}, not a Decimal")
    if not step > 0:
        raise ImpossibleDimensionError(name="step", value=float(step), unit="", rule="must be above zero")
    coins = (amount / step).quantize(Decimal(1), rounding=ROUND_HALF_UP)
    return coins * step
