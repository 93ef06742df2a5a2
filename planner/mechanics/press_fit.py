"""How hard a tube grips what it is pressed or stretched over."""

from math import log, pi, sqrt

from planner.errors import ImpossibleDimensionError


def sleeve_pressure_mpa(
    *,
    sleeve_bore_diameter_mm: float,
    sleeve_outer_diameter_mm: float,
    line_outer_diameter_mm: float,
    modulus_mpa: float,
) -> float:
    """How hard a rubber tube stretched over a line presses on it.

    Rubber that keeps its volume and follows the neo-Hookean law with a shear modulus of a third of Young's, stretched
    at constant length over a line that does not give. For a small stretch this is Lame's thick tube held at its length
    (plane strain: modulus E / (1 - nu^2), ratio nu / (1 - nu)); for a thin wall it is hoop tension over radius. Holds
    for moderate stretches, to about twice the bore. Creep and warmth are left out.

    Returns pressure on the line; 0 for a line no thicker than the bore. [MPa]

    sleeve_bore_diameter_mm, sleeve_outer_diameter_mm : the tube at rest
    line_outer_diameter_mm : the line it is pushed over
    modulus_mpa : young's modulus of the rubber at small strain. [MPa]

    >>> pressure_mpa = sleeve_pressure_mpa(
    ...     sleeve_bore_diameter_mm=4, sleeve_outer_diameter_mm=6, line_outer_diameter_mm=5, modulus_mpa=3
    ... )
    >>> round(pressure_mpa, 3)
    0.192

    Raises ImpossibleDimensionError when a size is not positive or the tube has no wall.

    Source: L. R. G. Treloar, "The Physics of Rubber Elasticity", 3rd edition, 1975, chapter on inflation of a tube
    (from memory); integrated here from the equilibrium of a thick tube and checked against Lame's solution.
    """
    for name, value in (
        ("sleeve_bore_diameter_mm", sleeve_bore_diameter_mm),
        ("line_outer_diameter_mm", line_outer_diameter_mm),
    ):
        if not value > 0:
            raise ImpossibleDimensionError(name=name, value=value, unit="mm", rule="must be above zero")
    if not modulus_mpa >= 0:
        raise ImpossibleDimensionError(name="modulus_mpa", value=modulus_mpa, unit="MPa", rule="must not be negative")
    if not sleeve_outer_diameter_mm > sleeve_bore_diameter_mm:
        raise ImpossibleDimensionError(
            name="sleeve_outer_diameter_mm",
            value=sleeve_outer_diameter_mm,
            unit="mm",
            rule=f"must be above the bore, {sleeve_bore_diameter_mm:g} mm",
        )
    if line_outer_diameter_mm <= sleeve_bore_diameter_mm:
        return 0.0
    grown_mm2 = line_outer_diameter_mm**2 - sleeve_bore_diameter_mm**2  # every circle's diameter squared grows by this
    stretched_outer_mm = sqrt(sleeve_outer_diameter_mm**2 + grown_mm2)
    rest_log = log(sleeve_outer_diameter_mm / sleeve_bore_diameter_mm)
    stretched_log = log(stretched_outer_mm / line_outer_diameter_mm)
    rim_term = grown_mm2 / 2 * (1 / line_outer_diameter_mm**2 - 1 / stretched_outer_mm**2)
    return modulus_mpa / 3 * (rest_log - stretched_log + rim_term)


def sleeve_hold_n(
    *,
    sleeve_bore_diameter_mm: float,
    sleeve_outer_diameter_mm: float,
    line_outer_diameter_mm: float,
    grip_length_mm: float,
    modulus_mpa: float,
    friction_ratio: float,
) -> float:
    """The pull at which a sleeve slides off one line: pressure, gripped area and friction.

    An estimate on the high side: a sleeve that is pulled grows thin and lets go from its mouth inwards.

    Returns pull it holds; 0 for a line no thicker than the bore.

    sleeve_bore_diameter_mm, sleeve_outer_diameter_mm : the tube at rest
    line_outer_diameter_mm : the line it is pushed over
    grip_length_mm : how much of the line it covers
    modulus_mpa : young's modulus of the rubber at small strain. [MPa]
    friction_ratio : friction of the rubber on the line

    Raises ImpossibleDimensionError when a size is impossible.

    Source: Pressure as in `sleeve_pressure_mpa`; holding force of a shrink fit = friction * pressure * area, as in
    any machine elements text.
    """
    for name, value, unit in (("grip_length_mm", grip_length_mm, "mm"), ("friction_ratio", friction_ratio, "")):
        if not value >= 0:
            raise ImpossibleDimensionError(name=name, value=value, unit=unit, rule="must not be negative")
    pressure_mpa = sleeve_pressure_mpa(
        sleeve_bore_diameter_mm=sleeve_bore_diameter_mm,
        sleeve_outer_diameter_mm=sleeve_outer_diameter_mm,
        line_outer_diameter_mm=line_outer_diameter_mm,
        modulus_mpa=modulus_mpa,
    )
    return friction_ratio * pressure_mpa * pi * line_outer_diameter_mm * grip_length_mm
