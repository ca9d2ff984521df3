"""Who publishes it? Thin adapters for MkDocs, for any Markdown host, and for the command line."""
