"""Section Crew."""
