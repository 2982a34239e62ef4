"""What a storey is made of: plan, tails, circuits and divisions as records."""
