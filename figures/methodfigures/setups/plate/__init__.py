"""A block that turns in the lathe."""
