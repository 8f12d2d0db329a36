"""Drawings as they stand in a page: the views alone, since the page itself is the sheet about them."""
