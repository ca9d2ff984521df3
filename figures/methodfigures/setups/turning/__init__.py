"""The work in the lathe, seen from the front."""
