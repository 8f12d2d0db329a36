"""Make the environment of this checkout, and run hardstand, its tests or its checks in it.

Needs nothing but Python 3.11 or later. The environment is the folder `.venv` beside this file. It
is made on the first run, brought up to date when `pyproject.toml` or `constraints.txt` change, and
made anew when it was left half made, was moved, or belongs to another Python. Nothing outside the
checkout is changed, except that root on Debian gets a missing venv package installed, and for the tests
a circuit simulator.

An older Python 3 must still be able to read this file, to say that it is too old: so the version is
looked at first, and there is no syntax in here newer than Python 3.6.
"""

import sys

OLDEST = (3, 11)


def too_old(found: str, newer: str) -> str:
    """Say that the Python found cannot run hardstand, and which one can or where to get one."""
    text = f"go.py: hardstand needs Python 3.{OLDEST[1]} or later, and this is Python {found}."
    if newer:
        return text + f"\nThere is a newer one on this machine. Say: {newer} go.py"
    return (
        text
        + """
Install one, then say the same with it:
  Debian, Ubuntu  sudo apt install python3 python3-venv   (where that is older: python3.11)
  Fedora          sudo dnf install python3
  macOS           the installer from python.org, or: brew install python
  Windows         the installer from python.org, then: py go.py"""
    )


def newer_python() -> str:
    """Name the newest Python on the path that can run hardstand; empty where there is none."""
    import shutil

    names = [f"python3.{minor}" for minor in range(30, OLDEST[1] - 1, -1)]
    return next((name for name in names if shutil.which(name)), "")


if sys.version_info < OLDEST:
    sys.exit(too_old(sys.version.split()[0], newer_python()))

import ctypes.util
import dataclasses
import hashlib
import json
import os
import shutil
import subprocess
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
MARK = VENV / "made-by-go.json"
WINDOWS = os.name == "nt"
SIMULATOR = "ngspice"
BROWSERS = ("chromium", "chromium-browser")
DRIVER_NEEDS = "libatomic1"  # a library that the browser's driver is linked with and does not bring
VERSION = "{}.{}".format(*sys.version_info[:2])
# With `.venv` activated, the Python running this is a part of what may have to be made anew.
OUTER_PYTHON = getattr(sys, "_base_executable", sys.executable)

HELP = """\
usage: python3 go.py COMMAND [ARGUMENTS]      (on Windows: py go.py COMMAND)

  demo [FOLDER]    lay out the demo aeroplane and print the verdict on it
  run ARGUMENTS    run hardstand, for example: python3 go.py run check my-jet
  test             lint, then the whole test suite; with arguments: only pytest, with them
  lint             ruff, mypy and the import contracts
  bench [NAME]     the benchmarks, or those with NAME in their file's name
  help             this page

The first run makes the folder .venv and needs a connection to the package index."""


def tell(text: str) -> None:
    """Write a line of progress to the standard error stream."""
    print(f"go.py: {text}", file=sys.stderr, flush=True)


# ---- What the environment is, and what it has to be


@dataclasses.dataclass(frozen=True)
class State:
    """The environment as it is noted in it: for whom it was made, from which pins, with what."""

    place: str  # platform, Python and folder: where these differ it is made anew
    pins: str  # digest of the requirements: where it differs a further install is enough
    extras: tuple[str, ...]
    complete: bool = False
    absent: tuple[str, ...] = ()  # libraries to compare with that have no build here


def wanted(extras: tuple[str, ...]) -> State:
    """Give the state that a complete environment with these extras has."""
    files = [(ROOT / name).read_bytes() for name in ("pyproject.toml", "constraints.txt")]
    return State(
        place=f"{sys.platform} {VERSION} {ROOT}",
        pins=hashlib.sha256(b"\0".join(files)).hexdigest(),
        extras=tuple(sorted(extras)),
        complete=True,
    )


def read_mark() -> State | None:
    """Read the state noted in the environment; None where nothing that can be read is noted."""
    try:
        noted = json.loads(MARK.read_text(encoding="utf-8"))
        noted.update({name: tuple(noted[name]) for name in ("extras", "absent")})
        return State(**noted)
    except (OSError, ValueError, TypeError, KeyError, AttributeError):
        return None


def write_mark(state: State) -> None:
    """Note the state in the environment."""
    VENV.mkdir(exist_ok=True)
    MARK.write_text(json.dumps(dataclasses.asdict(state), indent=1), encoding="utf-8")


def next_step(have: State | None, want: State) -> str:
    """Decide what is still to do: "nothing", "install" or "make" (the environment itself)."""
    if have is None or not have.complete or have.place != want.place:
        return "make"
    covered = set(want.extras) <= set(have.extras)
    return "nothing" if covered and have.pins == want.pins else "install"


# ---- Making it


def program(name: str) -> Path:
    """Give the path of a program in the environment."""
    return VENV / "Scripts" / f"{name}.exe" if WINDOWS else VENV / "bin" / name


def installer_settings() -> dict[str, str]:
    """Give the variables for the installers: they ask nothing and look for no news of themselves.

    They trust the certificates that the machine trusts, and do without a cache where there is no
    home folder that can be written to.
    """
    settings = {k: v for k, v in os.environ.items() if k not in ("PYTHONHOME", "PYTHONPATH")}
    settings.update(PIP_DISABLE_PIP_VERSION_CHECK="1", PIP_NO_INPUT="1", PIP_USER="0")
    settings.update(PIP_ROOT_USER_ACTION="ignore")
    settings.update(UV_PYTHON_DOWNLOADS="never", UV_SYSTEM_CERTS="1")
    settings.update(DEBIAN_FRONTEND="noninteractive")
    home = settings.get("USERPROFILE" if WINDOWS else "HOME", "")
    if not (home and Path(home).is_dir() and os.access(home, os.W_OK)):
        settings.update(PIP_NO_CACHE_DIR="1", UV_NO_CACHE="1")
    return settings


def step(*words: str | Path, silent: bool = False) -> bool:
    """Run one step of making the environment; True where it went well."""
    output = subprocess.DEVNULL if silent else sys.__stderr__
    code = subprocess.call(
        words,
        cwd=ROOT,
        env=installer_settings(),
        stdin=subprocess.DEVNULL,
        stdout=output,
        stderr=output,
    )
    return code == 0


def venv_advice(version: str) -> str:
    """Say what to install where this Python came without what makes an environment."""
    return f"""\
go.py: this Python has no venv and ensurepip modules, so it cannot make an environment.
Install them, then say the same again:
  Debian, Ubuntu  sudo apt install python{version}-venv
  Fedora          sudo dnf install python3 python3-pip
  macOS           the installer from python.org, or: brew install python
  Windows         run Python's installer again, choose Modify and tick pip"""


def need_venv() -> None:
    """End with advice where Python has no venv module; root on Debian gets it installed first."""
    present = (OUTER_PYTHON, "-c", "import ensurepip, venv; ensurepip.version()")
    if step(*present, silent=True):
        return
    if apt_install(f"python{VERSION}-venv") and step(*present, silent=True):
        return
    sys.exit(venv_advice(VERSION))


def apt_install(package: str) -> bool:
    """Install a package where root on Debian asks for it; True where it was tried."""
    if not (hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get")):
        return False
    tell(f"installing {package} with apt-get")
    step("apt-get", "update", silent=True)
    step("apt-get", "-y", "--no-install-recommends", "install", package, silent=True)
    return True


def taken_over() -> bool:
    """Tell whether `.venv` was made by hand and can be used; end where it cannot."""
    if MARK.exists() or not VENV.exists() or not any(VENV.iterdir()):
        return False
    test = f"import pip, sys; sys.exit('%d.%d' % sys.version_info[:2] != {VERSION!r})"
    if program("python").exists() and step(program("python"), "-c", test, silent=True):
        return True
    sys.exit(
        f"go.py: the folder .venv was not made by go.py, and Python {VERSION} cannot use it.\n"
        "Rename or delete it, then say the same again."
    )


def make(want: State) -> None:
    """Make an empty environment in `.venv`, unless one made by hand can be taken over."""
    if taken_over():
        return
    need_venv()
    tell(f"making .venv with Python {sys.version.split()[0]}")
    write_mark(dataclasses.replace(want, complete=False))
    for old in VENV.iterdir():
        if old.is_dir() and not old.is_symlink():
            shutil.rmtree(old)
        elif old != MARK:
            old.unlink()
    if not step(OUTER_PYTHON, "-m", "venv", VENV):
        sys.exit("go.py: Python's venv module failed; what it said stands above.")


def find_uv() -> str | Path | None:
    """Give the path of uv, fetched with pip where there is none; None where it cannot be had."""
    uv = program("uv") if program("uv").exists() else shutil.which("uv")
    if uv:
        return uv
    fetch = ("-m", "pip", "install", "--only-binary", ":all:", "-c", "constraints.txt", "uv")
    return program("uv") if step(program("python"), *fetch, silent=True) else None


def install(uv: str | Path | None, *what: str, silent: bool = False) -> bool:
    """Install packages at the versions that constraints.txt states, with uv or else with pip."""
    words = ("install", "-q", "-c", "constraints.txt", *what)
    if uv and step(uv, "pip", *words, "--python", program("python"), silent=True):
        return True
    if not silent:
        tell("installing with pip, which takes some minutes")
    return step(program("python"), "-m", "pip", *words, silent=silent)


def install_oracles(uv: str | Path | None) -> tuple[str, ...]:
    """Install the libraries that tests compare with; give those without a build for this machine.

    They are not built from source: that would take an hour and a compiler.
    """
    import tomllib

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    names = project["optional-dependencies"]["oracle"]
    built = ("--only-binary", ":all:")
    if install(uv, *built, *names, silent=True):
        return ()
    absent = [name for name in names if not install(uv, *built, name, silent=True)]
    return tuple(name.partition(";")[0] for name in absent)


def want_simulator() -> None:
    """Get the circuit simulator that tests run afresh; without it they compare with its record."""
    if not shutil.which(SIMULATOR):
        apt_install(SIMULATOR)
    if not shutil.which(SIMULATOR):
        tell(f"{SIMULATOR} is not installed: networks are compared with what it found before")


def want_browser() -> None:
    """Get the browser that drives the pages of the workbench; without it those tests are skipped."""
    if not any(map(shutil.which, BROWSERS)):
        apt_install(BROWSERS[0])
    if sys.platform == "linux" and not ctypes.util.find_library("atomic"):
        apt_install(DRIVER_NEEDS)
    if not any(map(shutil.which, BROWSERS)):
        tell(
            f"{BROWSERS[0]} is not installed: tests that drive a browser are skipped. Get it with\n"
            f"  Debian, Ubuntu  sudo apt install {BROWSERS[0]}\n"
            f"  Fedora          sudo dnf install {BROWSERS[0]}\n"
            f"  macOS           brew install {BROWSERS[0]}\n"
            f"  Windows         put a {BROWSERS[0]} program on the path"
        )


def fill(want: State) -> State:
    """Install what the wanted state names, and note it when it is complete."""
    write_mark(dataclasses.replace(want, complete=False))
    uv = find_uv()
    tell("installing hardstand and its libraries")
    extras = ",".join(name for name in want.extras if name != "oracle")
    if not install(uv, "-e", f".[{extras}]" if extras else "."):
        sys.exit(
            "go.py: not everything could be installed; what the installer said stands above.\n"
            "A connection to the package index is needed once. With it, say the same again."
        )
    absent: tuple[str, ...] = ()
    if "oracle" in want.extras:
        tell("installing the libraries that tests compare with")
        absent = install_oracles(uv)
    state = dataclasses.replace(want, absent=absent)
    write_mark(state)
    return state


def environment(*extras: str) -> None:
    """Bring `.venv` to where it has these extras, by the least that is still to do."""
    have, want = read_mark(), wanted(extras)
    todo = next_step(have, want) if program("python").exists() else "make"
    if todo != "nothing":
        start_s = time.monotonic()
        if todo == "make":
            make(want)
        elif have:
            want = dataclasses.replace(want, extras=tuple(sorted({*have.extras, *extras})))
        have = fill(want)
        tell(f"ready after {time.monotonic() - start_s:.0f} s")
    for name in have.absent if have and "oracle" in extras else ():
        tell(f"no build of {name} for this machine: the checks against it will be skipped")


# ---- The commands


def run(*words: str, cwd: Path | None = None) -> int:
    """Run a program of the environment by its name; its exit status, as a shell would give it."""
    code = subprocess.call([program(words[0]), *words[1:]], cwd=cwd)
    return code if code >= 0 else 128 - code


def report(checks: dict[str, tuple[str, ...]]) -> int:
    """Run checks one after the other, all of them, and print how each one ended."""
    lines, failed, width = [], 0, max(map(len, checks), default=0)
    for name, words in checks.items():
        tell(name)
        start_s = time.monotonic()
        code = run(*words, cwd=ROOT)
        failed += code != 0
        word = "passed" if code == 0 else f"FAILED (exit status {code})"
        lines.append(f"  {name:{width}}{time.monotonic() - start_s:7.1f} s  {word}")
    tell("\n".join(["summary", *lines]))
    return 1 if failed else 0


LINT = {
    "ruff": ("ruff", "check", "."),
    "mypy": ("mypy",),
    "imports": ("lint-imports", "--no-logo"),
}
TESTS = {"pytest": ("python", "-m", "pytest", "-n", "auto")}


def benchmarks(name: str) -> dict[str, tuple[str, ...]]:
    """Give the benchmark scripts whose file names contain a name."""
    scripts = sorted((ROOT / "benchmarks").glob("bench_*.py"))
    # As modules, so that they find their neighbours and the tests' aeroplanes and networks.
    return {
        one.stem: ("python", "-m", f"benchmarks.{one.stem}") for one in scripts if name in one.stem
    }


def check(command: str, rest: list[str]) -> int:
    """Carry out one of the commands for those who work on hardstand itself."""
    chosen = LINT if command == "lint" else {**LINT, **TESTS}
    if command == "bench":
        chosen = benchmarks(rest[0] if rest else "")
    if not chosen:
        tell("there is no such benchmark; there are " + ", ".join(benchmarks("")))
        return 3
    environment("lint", "oracle", "test")
    if command != "lint":
        want_simulator()
        want_browser()
    if command == "test" and rest:
        return run("python", "-m", "pytest", *rest, cwd=ROOT)
    return report(chosen)


def main(arguments: list[str]) -> int:
    """Carry out one command; the exit status of what it ran, 3 where there is no such command."""
    command, *rest = arguments or ["help"]
    if command in ("help", "-h", "--help"):
        print(HELP)
        return 0
    if command in ("demo", "run"):
        environment()
        return run("hardstand", *(["demo"] if command == "demo" else []), *rest)
    if command in ("test", "lint", "bench"):
        return check(command, rest)
    tell(f"there is no command {command!r}\n{HELP}")
    return 3


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except KeyboardInterrupt:
        sys.exit(130)
