"""`python -m tui`: the command line."""

from tui.cli import main

raise SystemExit(main())
