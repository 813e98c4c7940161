"""Everything that is known of one record, gathered once for whoever shows it."""
