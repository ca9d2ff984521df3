"""How is the work held and the tool set? One folder a kind of set-up."""
