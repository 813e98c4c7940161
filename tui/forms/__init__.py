"""The form of a record."""
