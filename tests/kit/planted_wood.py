"""Schedules that forget what the wood is, veneer or with open pores; each with its neighbour.

Common practice, no source, but for the grit on veneer.
"""

from planted_mistakes import DUST, GRAIN, NEUTRALISE, READY, SAND, STRIP, WASH, Case, coat

WOOD_CASES = {
    "machine on veneer": Case(
        ('do = "sand"; grits = [100, 150, 220]; with = "disc"', DUST, coat("oil", 2, by="cloth")),
        "goes over veneer, 0.6 mm thick, by machine with P100",
        ('do = "sand"; grits = [120, 180, 220]; with = "disc"', DUST, coat("oil", 2, by="cloth")),
        {"zone": "veneer = 0.6\n"},
    ),
    "coarse on veneer by hand is sound": Case(
        ('do = "sand"; grits = [100, 150, 220]; with = "disc"', DUST, coat("oil", 2, by="cloth")),
        "goes over veneer by machine with P100",
        (
            'do = "sand"; grits = [100, 150, 220]; with = "disc"; by = "hand"',
            DUST,
            coat("oil", 2, by="cloth"),
        ),
        {"head": "veneer = true\n"},
    ),
    "caustic on veneer": Case(
        (
            'do = "strip"; product = "lye"; by = "brush"',
            NEUTRALISE,
            SAND,
            DUST,
            coat("oil", 2, by="cloth"),
        ),
        "is caustic",
        (STRIP, WASH, SAND, DUST, coat("oil", 2, by="cloth")),
        {
            "surface": "varnished",
            "parts": (
                'name = "top"; shape = "board"; width = 500; '
                "depth = 400; height = 20; veneer = true",
            ),
        },
    ),
    "open grain under paint": Case(
        (SAND, DUST, coat("primer"), coat("sage", 2)),
        "open pores show through",
        (SAND, DUST, GRAIN, coat("primer"), coat("sage", 2)),
        {"zone": 'species = "ash"\n'},
    ),
    "open grain under an old film is sound": Case(
        (SAND, DUST, coat("primer"), coat("sage", 2)),
        "open pores show through",
        (*READY, coat("primer"), coat("sage", 2)),
        {"zone": 'species = "ash"\n'},
        {"zone": 'species = "ash"\n', "surface": "painted"},
    ),
}
