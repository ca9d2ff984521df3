"""What may be wrong with an operation or a set-up? One module a subject; `all_checks` walks them."""
