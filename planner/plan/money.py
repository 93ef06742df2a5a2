"""Money: exact decimals, rounded to the coin the shop counts in.

Each line is rounded half-up and tax is taken of the rounded sum; what has no price is named, never counted as
nothing.
"""

from decimal import ROUND_HALF_UP, Decimal

from planner.errors import ImpossibleDimensionError


def round_money(amount: Decimal, *, step: Decimal) -> Decimal:
    """An amount in whole coins, halves away from zero.

    Returns a whole multiple of the step, with as many decimals as the step has.

    step : the smallest coin counted, such as 0.01 or 0.05

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
