"""Lets the tests of pages, faces and browsers share one sample handbook."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
