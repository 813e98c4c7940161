"""Section Measure."""
