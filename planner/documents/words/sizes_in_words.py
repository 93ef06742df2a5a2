"""Sizes as people read them."""


def millimetres(length_mm: float | None) -> str:
    """A size as people read it: hundredths below 100 mm, whole millimetres above.

    Parameters
    ----------
    length_mm : float or None
        The size. [mm]

    Returns
    -------
    str
        "not measured" for None.

    References
    ----------
    Our own words.
    """
    if length_mm is None:
        return "not measured"
    return f"{length_mm:.2f} mm" if abs(length_mm) < 100 else f"{length_mm:.0f} mm"
