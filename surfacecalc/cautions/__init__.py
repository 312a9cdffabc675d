"""The usual cautions, those that apply to a job, each with its source and what it applies to.

They say what is commonly done; local codes and licensed practice come first.
"""

from surfacecalc.cautions.caution import Caution
from surfacecalc.cautions.caution_rules import cautions, cautions_together
from surfacecalc.cautions.caution_texts import CLOSING, CLOSING_FOR_OWNER

__all__ = ["CLOSING", "CLOSING_FOR_OWNER", "Caution", "cautions", "cautions_together"]
