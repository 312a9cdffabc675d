"""Sheets of paper for people: for the shop's wall, for the store, and for the client.

Each is one HTML file that needs nothing else. Numbers are rounded to what can be measured; the
exact ones stay in the reports' JSON.
"""
