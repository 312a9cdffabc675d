"""When lead paint was banned, by country: a piece made before may have lead in its coatings.

The table has the countries whose rule was read. Any other country, and a file that names none,
takes the latest of these bans. A country that banned lead paint later still needs its own row.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class LeadBan:
    """The ban of lead paint in a country.

    Attributes:
        code: of the country, ISO 3166-1 alpha-2.
        country: its name in a sentence.
        spellings: what else people call it.
        year: in which the ban began; a piece of that year may have been made before it.
        began: the first day of the ban, in words.
        source: the rule.
    """

    code: str
    country: str
    spellings: tuple[str, ...]
    year: int
    began: str
    source: str


BANS = (
    LeadBan(
        "US",
        "the United States",
        ("United States", "United States of America", "USA"),
        1978,
        "28 February 1978",  # furniture "manufactured after February 27, 1978"
        "16 CFR 1303.4",
    ),
    LeadBan(
        "GB",
        "the United Kingdom",
        ("United Kingdom", "UK", "Great Britain"),
        1992,
        "28 February 1992",  # lead carbonate and lead sulphate in paint; regulation 1(1)
        "SI 1992/31",
    ),
)
LATEST = max(BANS, key=lambda ban: ban.year)
"""For countries that are not in the table."""


def ban_in(country: str) -> LeadBan | None:
    """Return the ban of a country, by its code or its name; None where it is not in the table.

    >>> ban_in("usa").year, ban_in("U.K.").year, ban_in("FR")
    (1978, 1992, None)
    """
    word = country.replace(".", "").casefold().removeprefix("the ")
    for ban in BANS:
        if word in (ban.code.casefold(), *(spelling.casefold() for spelling in ban.spellings)):
            return ban
    return None
