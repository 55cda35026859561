"""Photographs and scans, made anew from what was sent."""
