"""What do the shop's verbs mean? One small module per family: words into cutter, cutting data, facts and cautions."""
