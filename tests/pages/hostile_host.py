"""Builds the handbook that is hostile in every field in another host: `python hostile_host.py HOST mkdocs.yml`.

A process of its own, for a fork of MkDocs takes its name and its modules.
"""

from __future__ import annotations

import runpy
import sys

import hostile

import methodsheets.handbook.build as room

if __name__ == "__main__":
    host, config = sys.argv[1:]
    made = hostile.handbook()
    room.build_handbook = lambda *given, **named: made
    sys.argv = [host, "build", "--quiet", "--config-file", config]
    runpy.run_module(host, run_name="__main__")
