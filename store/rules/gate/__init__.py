"""The stages, what holds each, and the guard of every change."""
