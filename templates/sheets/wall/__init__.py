"""Sheets that go to the wall: tape marks, labels."""
