"""The work in the vice or clamped to the table of the mill."""
