"""Plan set in, job record out: the shear wall schedule as readings that know where they were printed."""
