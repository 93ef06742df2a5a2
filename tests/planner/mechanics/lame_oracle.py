"""Lame's thick tube: an oracle for a sleeve that is hardly stretched, itself held against published press fits."""


def lame_pressure_mpa(
    *,
    interference_mm: float,
    interface_diameter_mm: float,
    hub_outer_diameter_mm: float,
    hub_modulus_mpa: float,
    hub_poisson_ratio: float,
    core_bore_diameter_mm: float = 0.0,
    core_modulus_mpa: float | None = None,
    core_poisson_ratio: float = 0.0,
) -> float:
    """Pressure between a tube and what it is pressed on, for stiff materials and small strain, in MPa.

    The core does not give where no modulus is told for it.
    """
    touch_mm2, outer_mm2, bore_mm2 = interface_diameter_mm**2, hub_outer_diameter_mm**2, core_bore_diameter_mm**2
    give = ((outer_mm2 + touch_mm2) / (outer_mm2 - touch_mm2) + hub_poisson_ratio) / hub_modulus_mpa
    if core_modulus_mpa is not None:
        give += ((touch_mm2 + bore_mm2) / (touch_mm2 - bore_mm2) - core_poisson_ratio) / core_modulus_mpa
    return interference_mm / interface_diameter_mm / give
