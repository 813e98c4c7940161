"""The ledger: quotes, deposits, payments, and what it will cost in the end."""
