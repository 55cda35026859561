"""Line art as data: strokes in millimetres, and the shell's own elements. Draws on nothing; two renderers read it."""
