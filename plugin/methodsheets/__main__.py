"""What does `python -m methodsheets` do? The same as the command `methodsheets`."""

from __future__ import annotations

import sys

from methodsheets.faces.cli import main

sys.exit(main())
