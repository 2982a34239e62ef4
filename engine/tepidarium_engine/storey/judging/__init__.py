"""Whether pipes of several circuits can lie beside each other, and what floor they leave bare."""
