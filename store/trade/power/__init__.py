"""Boxes, circuits, conductors, receptacles, voltage drop."""
