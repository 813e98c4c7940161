"""Calls, papers and bookings of the trades."""
