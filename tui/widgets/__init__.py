"""Widgets: each is given plain data and posts messages; none knows a view or a file."""
