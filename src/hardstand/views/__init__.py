"""What a person or another program is shown: composed from results, computing nothing."""
