"""What the reader tells of every token; training and reading share these names.

Each table is the order of a head's classes. ``THINGS``: "food" opens the words of a food that goes in, "food+" goes
on with them, "again" is another mention of such a food, "instead" one that may stand in for it, "preparation" what is
done to it beforehand. ``FIGURES``: what a figure or a level is of; "share …" how much of something made is taken.
"""

from __future__ import annotations

ROLES = (
    "hi",
    "tease",
    "open",
    "need",
    "do",
    "ahead",
    "sign",
    "why",
    "tale",
    "else",
    "visit",
    "break",
    "bye",
    "junk",
)
THINGS = ("", "food", "food+", "again", "instead", "preparation")
FIGURES = (
    "",
    "amount",
    "time",
    "heat oven",
    "heat hob",
    "heat oil",
    "heat internal",
    "heat other",
    "share part",
    "share rest",
    "share some",
    "share all",
    "yield",
    "batch",
)
TITLE = ("", "title", "title+", "title word")
SHARES = {name.removeprefix("share "): name for name in FIGURES if name.startswith("share ")}
