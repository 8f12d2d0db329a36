"""Whether everything aboard has room: signed distances, limits, and what stands in the way."""
