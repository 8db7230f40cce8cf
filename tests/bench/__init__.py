"""Costs as ratios in one run; never a test that can fail on a slow machine."""
