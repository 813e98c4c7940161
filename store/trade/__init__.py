"""The arithmetic of the trade: pure functions of numbers, each naming its source."""
