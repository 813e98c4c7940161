"""Light tape and lamps: their drivers, their wire, and what an eye sees of them."""
