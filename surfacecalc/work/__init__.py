"""Hands-on work: what is done in each step of a zone, in words, and how long the hands take."""
