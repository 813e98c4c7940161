"""What to do next: hazards, what holds the next stage, what is missing, calls and days, packets, photos."""
