"""Whether a pipe can be laid as drawn, and how good it is; knows nothing of how it was made."""
