"""How a field type is told: a strict number with its unit and range, or a text, with label and help."""

from typing import Any

from pydantic import Field


def measure(
    label: str,
    help_text: str,
    unit: str,
    *,
    least: float | None = None,
    most: float | None = None,
    above: float | None = None,
    below: float | None = None,
) -> Any:
    """A strict number with unit, range, label and help."""
    return Field(
        strict=True,
        allow_inf_nan=False,
        ge=least,
        le=most,
        gt=above,
        lt=below,
        title=label,
        description=help_text,
        json_schema_extra={"unit": unit},
    )


def work(of: str, help_text: str) -> Any:
    """Work that questions about holes may cost, counted in rows looked at."""
    return measure(f"work on {of}", help_text, "million rows", least=0.0001, most=10_000)


def text(label: str, help_text: str) -> Any:
    """A text with label and help."""
    return Field(title=label, description=help_text)
