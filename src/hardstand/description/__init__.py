"""What the builder writes: the aeroplane, its parts, units and options; read, checked, written back."""
