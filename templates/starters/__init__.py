"""Whole jobs to start from, as TOML with the same field names as the records."""

from templates.starters.load import SHIPPED, load

__all__ = ["SHIPPED", "load"]
