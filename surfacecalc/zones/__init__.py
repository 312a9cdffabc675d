"""The exposed faces of a piece become zones with an area and the lines where they meet."""
