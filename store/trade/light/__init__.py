"""Low-voltage lights: their driver, their wire, and whether an eye sees the source."""
