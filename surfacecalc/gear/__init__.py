"""What the hands need beside what is used up by the area: protection, and tools for each step.

cautions -> protection.py   what they ask to wear
steps    -> tools.py        brush, tray, strainer, cups
both     -> needed_too.py   what the file does not list, with a price where one is known
"""
