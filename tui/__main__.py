"""`python -m tui`: the command line."""

from tui.cli.main import main

raise SystemExit(main())
