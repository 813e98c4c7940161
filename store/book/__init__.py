"""The job file: durable, shared, with history and undo. The only package that knows the database."""
