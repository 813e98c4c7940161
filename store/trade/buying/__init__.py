"""Cutting lengths from stock."""
