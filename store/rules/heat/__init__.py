"""Fireplace, heaters, and the heat behind a shut door."""
