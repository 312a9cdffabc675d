"""A sheet as PDF, set from the very page that is written as HTML, so that there is one source.

`tree` reads the page, `markup` says it in the language of the typesetter, `sheet.typ` holds all the
looks, `printing` makes the file. The same page gives the same bytes, whatever the computer, as long
as its letters are in the typefaces that the typesetter brings with it.
"""
