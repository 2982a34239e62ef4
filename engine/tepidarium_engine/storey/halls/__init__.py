"""Floor that tails cut off: side loops, circuits more, pipe led aside."""
