"""Ways of pipes over cells: how wide apart they lie, where they bend, what floor they leave."""
