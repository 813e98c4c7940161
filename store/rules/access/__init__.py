"""The means of access to a thing in the wall, and what is behind each access panel."""
