"""What does the handbook say? Pure calculations of the trade and their tables, one module a subject."""
