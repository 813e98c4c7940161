"""Values a person types and reads: lengths, masses, money, dates, numbers."""
