"""Amounts as people write them, and as people read them."""
