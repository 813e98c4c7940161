"""Pieces in an opening, shelves, the size of an access."""
