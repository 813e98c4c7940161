"""What is to buy, from which spool it is cut, and the days for ordering and sending back."""
