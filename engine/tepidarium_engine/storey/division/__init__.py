"""One room divided by cuts along its walls, each piece with its pipe and its tails."""
