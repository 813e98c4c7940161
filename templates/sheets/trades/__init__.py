"""Sheets for the trades."""
