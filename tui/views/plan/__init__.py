"""Section Plan."""
