"""The wall as shapes: its elevation, what belongs together, moving, tape marks."""
