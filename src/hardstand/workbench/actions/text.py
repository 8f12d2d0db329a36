"""A whole file as it was typed, kept only where the aeroplane can be read with it."""

from __future__ import annotations

from collections.abc import Mapping

from hardstand.description.safe_files import sha256_of
from hardstand.workbench.bench import Bench
from hardstand.workbench.outcome import Outcome, refused
from hardstand.workspace import opened


def put_text(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """Write a file of the folder, if it is still the one that was shown.

    A browser sends its line ends as CR LF whatever it was given; the file keeps its own.
    """
    bench.refresh()
    name, shown = values.get("file", ""), values.get("sha256", "")
    texts = bench.now_texts()
    if name not in texts:
        return refused(f"there is no file {name} in this folder.")
    if sha256_of(texts[name].encode()) != shown:
        return refused(f"{name} has changed since this page showed it.",
                       "Copy what you typed, and open the page again.")  # fmt: skip
    text = typed_in(values, texts[name])
    if text == texts[name]:
        return refused(f"{name} is what it was.", status=200)
    return bench.put_text(name, text, f"{name} edited as text")


def check_text(bench: Bench, values: Mapping[str, str]) -> Outcome:
    """Whether the aeroplane could be read with a file as it is typed; nothing is written.

    Raises UnreadableError with what is wrong.
    """
    name, texts = values.get("file", ""), bench.now_texts()
    if name not in texts:
        return refused(f"there is no file {name} in this folder.")
    opened(bench.folder, {**texts, name: typed_in(values, texts[name])}, bench.options)
    return Outcome(made=False, words="It can be read as it is typed.")


def typed_in(values: Mapping[str, str], found: str) -> str:
    """The text of a form with the line ends of the file that it is for."""
    text = values.get("text", "").replace("\r\n", "\n")
    return text.replace("\n", "\r\n") if "\r\n" in found else text
