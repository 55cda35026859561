"""What goes over the wire. A schema shapes and checks form; it looks nothing up and decides nothing."""
