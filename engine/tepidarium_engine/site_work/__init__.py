"""From the laid pipe to the running floor: leak test, flushing, filling, frost, water and the records of them."""
