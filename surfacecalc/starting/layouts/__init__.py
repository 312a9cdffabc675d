"""How the parts of each kind of piece are placed: sizes in, parts as text out."""
