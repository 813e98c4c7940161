"""Sheets for the owner."""
