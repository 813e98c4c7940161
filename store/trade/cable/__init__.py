"""Cables and raceways: kinds, jackets, lengths, bends, fill, separation."""
