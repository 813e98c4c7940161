"""Wood, screws and board: what holds, what bends, what to buy and how to cut it."""
