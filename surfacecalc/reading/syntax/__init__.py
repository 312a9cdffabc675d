"""What is wrong with a line that is no TOML, in words for people who do not write programs.

slip                              where the standard parser stopped, and the line there
headers, texts, lists, values     what may be wrong with each; a rule gives its words, or nothing
explain                           the first rule that applies
"""
