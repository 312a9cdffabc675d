"""The kinds of piece that a file may name; `starting` knows how each is measured."""

KIND_NAMES = (
    "chest",
    "dresser",
    "nightstand",
    "table",
    "desk",
    "bookcase",
    "cabinet",
    "chair",
    "bench",
    "headboard",
    "mirror",
)
