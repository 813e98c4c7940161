"""One module a view: what it lists, and what is special about it."""
