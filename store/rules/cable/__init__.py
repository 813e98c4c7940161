"""Kinds, routes, lengths, raceways and labels of cables."""
