"""The evaluated method: set-ups, operations, checks, totals, stock, time, comparison and records."""
