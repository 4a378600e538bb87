"""Oil as it is told: its type, where the specification was read, how it went in. Words by code."""

OILS = {
    "pag46": "PAG 46",
    "pag100": "PAG 100",
    "pag150": "PAG 150",
    "poe": "Ester (POE)",
    "maker": "The one the maker names",
    "not_known": "Not known",
}
OIL_SOURCES = {
    "compressor": "Label on the compressor",
    "label": "Under-hood label",
    "workshop_data": "Workshop data",
    "seller": "Sheet of the part’s seller",
    "guess": "Not sure",
}
ARRIVED = {
    "dry": "Dry",
    "some": "With some oil",
    "whole_system": "With the whole loop’s oil",
    "kept": "No new compressor",
}
HOW_IN = {"part": "Poured into a part", "port": "Injected at the port"}
YES_NO = {"yes": "Yes", "no": "No", "not_known": "Not known"}
# Parts that hold oil of the loop.
OIL_PARTS = ("compressor", "condenser", "evaporator", "drier", "hose", "expansion_device", "other")
