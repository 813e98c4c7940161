"""The wall drawn in cells."""
