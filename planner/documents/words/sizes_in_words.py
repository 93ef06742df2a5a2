"""Sizes as people read them."""


def millimetres(length_mm: float | None) -> str:
    """A size as people read it: hundredths below 100 mm, whole millimetres above.

    Returns "not measured" for None.
    """
    if length_mm is None:
        return "not measured"
    return f"{length_mm:.2f} mm" if abs(length_mm) < 100 else f"{length_mm:.0f} mm"
