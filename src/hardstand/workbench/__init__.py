"""The workbench: a local web application over one aeroplane's folder.

Pages are composed on the server from the Assessment and the JSON forms; no figure is computed here.
Every edit is a list of changes through the one way that all changes take (`workspace`), written and
assessed before it is answered. The door (`gate`, `guard`) lets in only browsers that the terminal has
let in, from addresses that are its own.
"""

from hardstand.workbench.application import make_app
from hardstand.workbench.bench import Bench
from hardstand.workbench.gate import Gate

__all__ = ["Bench", "Gate", "make_app"]
