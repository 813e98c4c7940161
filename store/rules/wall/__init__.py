"""The wall as measured: its readings, where everything is, what is in an opening."""
