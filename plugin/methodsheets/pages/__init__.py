"""What does the reader see? Pages, bench sheets and tables as a neutral document tree that any host can render."""
