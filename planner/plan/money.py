"""Money: exact decimals, rounded to the coin the shop counts in."""

from decimal import ROUND_HALF_UP, Decimal, InvalidOperation

from planner.errors import ImpossibleDimensionError


def read_money(text: str) -> Decimal | None:
    """An amount of money as it is written in the catalog.

    Parameters
    ----------
    text : str
        Decimal text such as "1.20"; "" where nothing is priced.

    Returns
    -------
    Decimal or None
        None where nothing is priced: it is never nought.

    Raises
    ------
    ImpossibleDimensionError
        When the text is no amount, or a negative one.

    Examples
    --------
    >>> read_money("1.20")
    Decimal('1.20')

    References
    ----------
    Plain bookkeeping; no outside source needed.
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

    Parameters
    ----------
    amount : Decimal
        Any amount.
    step : Decimal
        The smallest coin counted, such as 0.01 or 0.05.

    Returns
    -------
    Decimal
        A whole multiple of the step, with as many decimals as the step has.

    Raises
    ------
    ImpossibleDimensionError
        When the step is not above zero.
    TypeError
        When either is a float: money is never one.

    Examples
    --------
    >>> round_money(Decimal("1.225"), step=Decimal("0.05"))
    Decimal('1.25')

    References
    ----------
    Commercial rounding; common practice, no source.
    """
    for value in (amount, step):
        if not isinstance(value, Decimal):
            raise TypeError(f"money is exact: {value!r} is a {type(value).__name__}, not a Decimal")
    if not step > 0:
        raise ImpossibleDimensionError(name="step", value=float(step), unit="", rule="must be above zero")
    coins = (amount / step).quantize(Decimal(1), rounding=ROUND_HALF_UP)
    return coins * step
