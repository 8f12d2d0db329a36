"""Engines: pure functions from an as-built aeroplane to frozen results.

No engine reads a file, prints, keeps state or knows who asks. Engines import one another only
through the result types in their `model` modules.
"""
