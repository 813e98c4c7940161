"""Readings, framing, tape and the geometry of a plane; bounds and citations that every room uses."""
