"""Imported meshes and scans: read, cleaned, cut, told apart, and measured.

The solids of `shapes` do not need any of this; trimesh is loaded only here.
"""
