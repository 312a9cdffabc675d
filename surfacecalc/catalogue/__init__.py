"""Generic classes of products and abrasives, each number published or marked assumed.

The numbers stand in the TOML files beside this one, with their sources.
"""
