"""Data, coax, HDMI and speaker runs."""
