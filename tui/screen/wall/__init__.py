"""The drawing on the screen of a job: the pane it is in, what keys act on there, its windows."""
