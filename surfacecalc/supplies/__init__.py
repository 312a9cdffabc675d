"""Amounts become packs and money."""
