"""Comparison: the description and its options, each assessed whole, side by side.

What is compared: the lines that each stage declares (`Stage.compared`), what the description alone
shows (items, leads), and the findings by code and subject. Differences are told in words computed
from the figures, the largest first. Assumptions: each option is laid over the same description;
differences are of values, for most of what is not known is the same on both sides. Limits of
validity: a stage that assessed nothing is compared in nothing, and said to be not assessed.
"""

from hardstand.comparison.compare import compare, named_columns
from hardstand.comparison.value import Column, Comparison, Difference, Line

__all__ = ["Column", "Comparison", "Difference", "Line", "compare", "named_columns"]
