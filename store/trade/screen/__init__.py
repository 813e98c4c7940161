"""The picture and the seat."""
