"""Computes: whether a line passes, which way it takes, how it is joined, how long it must be."""
