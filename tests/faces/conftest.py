"""Lets these tests use the sample handbook of the pages' tests."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "pages"))
