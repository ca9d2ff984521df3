"""A round part worked across its axis."""
