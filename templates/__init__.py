"""What a job starts from and what it prints."""
