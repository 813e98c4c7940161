"""What is built of wood, steel and board: what holds it up, what to buy for it, and how to cut it."""
