"""Room in openings: gear, plugs, doors, shelves, and what is in front."""
