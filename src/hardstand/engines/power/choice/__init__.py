"""Which wire and which plug each lead needs, in the worst moment and in the worst single failure."""
