"""The piece file becomes a piece, or a list of everything that is wrong with it.

document    bytes to TOML tables, every key with its line
tables      one table, read key by key, mistakes collected
parts, zones, schedules, products, abrasives, and `piece`, which puts them together
"""
