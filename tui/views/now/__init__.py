"""Section Now."""
