"""Zones and their steps become amounts, as ranges.

draws       one random sample for each factor
coating     litres or kilos of a coating step
sanding     pieces of an abrasive
job         all of them, summed by supply
"""
