"""Section Rough-in."""
