"""Runs the validation tests and prints the table: `python -m tests.validation`; `--short` leaves the sources out."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

if __name__ == "__main__":
    given = sys.argv[1:]
    os.environ["METHODSHEETS_VALIDATION"] = "short" if "--short" in given else "1"
    sys.exit(pytest.main([str(Path(__file__).parent), *(word for word in given if word != "--short")]))
