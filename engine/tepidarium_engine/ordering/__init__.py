"""What is ordered for a floor: quantities by rule, and how pipe is cut from coils."""
