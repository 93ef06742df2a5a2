"""The only inch in the project."""

MILLIMETRES_PER_INCH = 25.4
"""Exact since the international yard and pound agreement of 1959."""
