"""The years after: replacing, upgrades, upkeep."""
