"""How the parts of each kind of piece stand: sizes in, parts as text out."""
