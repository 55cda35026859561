"""The shell drawing and its kin, for screen and paper."""
