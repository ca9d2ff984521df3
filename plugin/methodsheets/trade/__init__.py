"""What does the handbook say? Pure calculations and their tables: a chapter a folder, a subject a module."""
