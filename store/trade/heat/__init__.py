"""Heat in an enclosure, and heaters."""
