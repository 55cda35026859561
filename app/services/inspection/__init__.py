"""The inspection of a shell: points, readings, gauges, the verdict."""
