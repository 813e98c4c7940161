"""Sums of money."""
