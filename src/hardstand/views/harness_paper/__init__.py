"""The harness on paper: labels, cut list, bill of material, and the drawing of who is joined to whom."""

from hardstand.views.harness_paper.files import WHAT, harness_files
from hardstand.views.harness_paper.form import making_form

__all__ = ["WHAT", "harness_files", "making_form"]
