#!/usr/bin/env python3
"""Do two builds of the program write the same numbers?

    python3 tests/reference/same_numbers.py OLD NEW [options]

OLD and NEW are programs, or folders that an earlier run kept with --keep. Every
answering command is run for every shipped scenario (see `cases`), in copies of
`scenarios/` at the same relative paths, and what is written is compared:

* Exit codes.
* CSV, cell by cell. A file is found by its name, a column by its head. A cell
  that reads as a number is the same if it reads as the same number. Failing
  these, a file that holds all the heads, a column of equal cells under another
  head, and equal rows in another order are told as notes, not as differences.
  A file or a column that is new is a note.
* JSON, by value: its shape may change, so the set of (number, unit) pairs of
  the old must be in the new. The unit of a number is the `unit` of the nearest
  object around it; what is merely counted (`flights`, `shots`, no unit) is a
  count. All JSON files of one command are one set, its standard output is
  another.

* Of a tape, which is a drawing, the numbers in its words: the old in the new.

Words in a CSV are cells like others; words in JSON, HTML, SVG and on the
terminal are not compared otherwise.

Intended differences stand in a text file beside this script, one a line:

    CASE | PLACE | REASON

CASE and PLACE as printed by this script, with `*` for anything. It ends with 1
if there is any other difference. A line that matches nothing is told.

That the comparison can fail is shown by `same_numbers.py KEPT/old --prove`, which
spoils copies of what one program wrote and wants each harm seen.

Only Python's standard library is used (3.11 or newer).
"""

import argparse
import csv
import io
import json
import math
import os
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
from collections import Counter
from pathlib import Path

HERE = Path(__file__).resolve().parent
SHIPPED = HERE.parent.parent / "scenarios"
# Measured shift for `pin`, which no shipped scenario states: added to a copy.
MEASURED = '\n[measured]\ndistance = "20 yd"\nleft = "1 in"\nup = "0 in"\nnock_turn = "120 deg"\n'
# Tokens of a unit in SI; a unit of any other word counts things.
SI = {"m", "s", "kg", "rad", "N", "Pa", "K", "J", "W", "Hz"}


# --- what is run -----------------------------------------------------------


def cases(scenarios, few):
    """Name, words of the command, and the table its standard output holds, if
    it is one and not JSON."""
    found = []

    def add(name, words, out=None, table=None):
        more = [] if table else ["--json"]
        folder = ["--out", "out"] if out else []
        found.append((name, words + more + folder, table))

    for path in sorted(scenarios.glob("*.toml")):
        name, file = path.stem, f"scenarios/{path.name}"
        read = tomllib.loads(path.read_text())
        flights = few.get(name, few.get("*"))
        add(f"run {name}", ["run", file] + (["--flights", flights] if flights else []), out=True)
        for build in [b["name"] for b in read.get("build", [])] or [None]:
            of = ["--build", build] if build else []
            tail = f"{name} / {build}" if build else name
            add(f"arrow {tail}", ["arrow", file, *of])
            add(f"fly {tail}", ["fly", file, *of])
            add(f"fly point-mass {tail}", ["fly", file, *of, "--model", "point-mass"])
            for units in ["archery", "metric"]:
                words = ["fly", file, *of, "--as", "csv", "--units", units]
                add(f"fly csv {units} {tail}", words, table="fly.csv")
            add(f"push {tail}", ["push", file, *of], out=True)
            add(f"pin {tail}", ["pin", f"scenarios/measured-{path.name}", *of])
            add(f"marks {tail}", ["marks", f"scenarios/marked-{path.name}", *of], out=True)
            words = ["marks", f"scenarios/marked-{path.name}", *of, "--csv", "--units", "metric"]
            add(f"marks csv metric {tail}", words, table="marks.csv")

    sight = "scenarios/sight-marks.toml"
    add("marks metric sight-marks", ["marks", sight, "--units", "metric"], out=True)
    add("push metric tune-hunter", ["push", "scenarios/tune-hunter.toml", "--units", "metric"], out=True)
    # A tape is drawings, and words on the terminal; its numbers are read from those.
    for paper in ["a4", "letter"]:
        add(f"tape {paper}", ["tape", sight, "--paper", paper], out=True, table="said.txt")
    for shots in ["two-marks", "mixed"]:
        given = ["--shots", f"scenarios/shots/{shots}.csv"]
        for seek in ["speed", "drag", "speed,drag", "speed,radius"]:
            add(f"fit {shots} {seek}", ["fit", sight, *given, "--seek", seek])
        add(f"tape {shots}", ["tape", sight, *given], out=True, table="said.txt")
    group = ["--n", "12", "--mean-radius"]
    add("verdict counts", ["verdict", *group, "2.1 in", *group, "1.6 in"], out=True)
    shot = "scenarios/bench/shots.csv"
    add("verdict one", ["verdict", shot, "--n", "12", "--mean-radius", "1.6 in"], out=True)
    add("verdict two", ["verdict", shot, shot, "--units", "metric"], out=True)

    bench = "scenarios/bench/bench.toml"
    at = "scenarios/bench/"
    sets = ["--set", "hunt=6", "--set", "practice=4"]
    jobs = {
        "square": ["square", "--readings", at + "faces.csv"],
        "square bare": ["square"],
        "cut profile": ["cut", "--readings", at + "profile.csv", "--supports", "2 in, 30 in"],
        "cut stock": ["cut", "--grade", "0.003 in", "--measure", "plus-minus", "--stock", "32 in"],
        "sort dozen": ["sort", "--batch", at + "dozen.csv", *sets],
        "sort dozen together": ["sort", "--batch", at + "dozen.csv", *sets, "--together"],
        "sort gross": ["sort", "--batch", at + "gross.csv", "--set", "all=36"],
        "index": ["index", "--batch", at + "dozen.csv", "--shots", shot],
    }
    for units in ["archery", "metric"]:
        for name, (job, *more) in jobs.items():
            words = ["bench", job, bench, *more, "--units", units]
            add(f"bench {name} {units}", words, out=True)
    return found


def copied(scenarios, to):
    """The scenarios beside the outputs, with copies that `pin` and `marks` take."""
    shutil.copytree(scenarios, to / "scenarios")
    for path in sorted(scenarios.glob("*.toml")):
        text = path.read_text()
        (to / "scenarios" / f"measured-{path.name}").write_text(text + MEASURED)
        marked = text if "\n[marks]" in text else text + "\n[marks]\n"
        (to / "scenarios" / f"marked-{path.name}").write_text(marked)


def run(program, all_cases, scenarios, to):
    """What a program writes for each case, kept in a folder for each."""
    program = str(Path(program).resolve())
    for name, words, table in all_cases:
        folder = to / safe(name)
        folder.mkdir(parents=True)
        os.symlink(scenarios / "scenarios", folder / "scenarios")
        ran = subprocess.run([program, *words], cwd=folder, capture_output=True, check=False)
        os.unlink(folder / "scenarios")
        (folder / "exit").write_text(str(ran.returncode))
        (folder / "stderr").write_bytes(ran.stderr)
        if ran.returncode == 0:
            (folder / (table or "stdout.json")).write_bytes(ran.stdout)


def safe(name):
    return re.sub(r"[^A-Za-z0-9-]+", "_", name)


# --- what is compared ------------------------------------------------------


class Found:
    """Differences and notes, each once for a case and a place."""

    def __init__(self):
        self.differences, self.notes = [], []

    def differs(self, case, place, what):
        self.differences.append((case, place, what))

    def note(self, case, place, what):
        self.notes.append((case, place, what))


def number(text):
    try:
        return float(text)
    except ValueError:
        return None


def near(a, b, tolerance):
    return a == b or (tolerance > 0 and math.isclose(a, b, rel_tol=tolerance, abs_tol=0))


def same_cell(a, b, tolerance):
    if a == b:
        return True
    x, y = number(a), number(b)
    return x is not None and y is not None and near(x, y, tolerance)


def columns(path):
    """Heads and the columns below them; a head that stands twice is numbered."""
    rows = list(csv.reader(io.StringIO(path.read_text())))
    heads, found = rows[0] if rows else [], {}
    for at, head in enumerate(heads):
        while head in found:
            head += "'"
        found[head] = [row[at] if at < len(row) else "" for row in rows[1:]]
    return found


def same_column(a, b, tolerance):
    return len(a) == len(b) and all(same_cell(x, y, tolerance) for x, y in zip(a, b))


def ordered(table, heads):
    """Rows in an order that does not depend on how they were written."""
    key = [[(number(c) if number(c) is not None else math.inf, c) for c in table[h]] for h in heads]
    return sorted(range(len(key[0])), key=lambda at: [column[at] for column in key])


def compare_table(case, file, old, new, tolerance, found):
    moved = {}
    for head in old:
        if head not in new:
            spare = [h for h in new if h not in old and h not in moved.values()]
            like = [h for h in spare if same_column(old[head], new[h], tolerance)]
            if like:
                moved[head] = like[0]
                found.note(case, f"{file}:{head}", f"head is now {like[0]!r}")
            else:
                found.differs(case, f"{file}:{head}", "column is gone")
    for head in new:
        if head not in old and head not in moved.values():
            found.note(case, f"{file}:{head}", "column is new")
    shared = [head for head in old if head in new]
    if not shared:
        return
    before, after = len(old[shared[0]]), len(new[shared[0]])
    if before != after:
        found.differs(case, file, f"{before} rows before, {after} after")
        return
    wrong = [h for h in shared if not same_column(old[h], new[h], tolerance)]
    if not wrong:
        return
    a, b = ordered(old, shared), ordered(new, shared)
    if all(same_cell(old[h][x], new[h][y], tolerance) for h in shared for x, y in zip(a, b)):
        found.note(case, file, "rows are in another order")
        return
    for head in wrong:
        pairs = list(zip(old[head], new[head]))
        bad = [at for at, (x, y) in enumerate(pairs) if not same_cell(x, y, tolerance)]
        x, y = pairs[bad[0]]
        what = f"{len(bad)} of {before} cells, first in row {bad[0] + 1}: {x!r} is now {y!r}"
        found.differs(case, f"{file}:{head}", what)


def compare_tables(case, old, new, tolerance, found):
    tables = {p.name: columns(p) for p in sorted(new.rglob("*.csv"))}
    known = {p.name: columns(p) for p in sorted(old.rglob("*.csv"))}
    taken = set()
    for file, table in known.items():
        other = file
        if file not in tables:
            like = [n for n, t in tables.items() if n not in known and set(table) <= set(t)]
            if not like:
                found.differs(case, file, "table is gone")
                continue
            other = like[0]
            found.note(case, file, f"table is now {other}")
        taken.add(other)
        compare_table(case, file, table, tables[other], tolerance, found)
    for file in tables.keys() - taken:
        found.note(case, file, "table is new")


def plain(unit):
    """A unit in SI as it stands; a count where it only names what is counted."""
    tokens = re.split(r"[ /*]+", unit)
    bare = [re.sub(r"\^?-?\d+$", "", token) for token in tokens]
    return unit if any(t in SI for t in bare) and all(t in SI or not t for t in bare) else "1"


def numbers(tree, place="", unit="1"):
    """Every number with its place and unit. Places in lists are one place."""
    if isinstance(tree, bool):
        return
    if isinstance(tree, (int, float)):
        yield place, float(tree), unit
    elif isinstance(tree, dict):
        own = tree.get("unit")
        unit = plain(own) if isinstance(own, str) else unit
        for key, value in tree.items():
            yield from numbers(value, f"{place}.{key}" if place else key, unit)
    elif isinstance(tree, list):
        for value in tree:
            yield from numbers(value, f"{place}[]", unit)


def compare_json(case, where, old, new, tolerance, found):
    have = set()
    for path in new:
        have.update((value, unit) for _, value, unit in numbers(json.loads(path.read_text())))
    close = sorted(have) if tolerance > 0 else []
    missing = {}
    for path in old:
        for place, value, unit in numbers(json.loads(path.read_text())):
            total, gone = missing.setdefault((path.name, place), [0, []])
            missing[path.name, place][0] = total + 1
            if (value, unit) not in have and not any(
                u == unit and near(value, v, tolerance) for v, u in close
            ):
                gone.append((value, unit))
    for (name, place), (total, gone) in missing.items():
        if gone:
            value, unit = gone[0]
            others = sorted({u for v, u in have if v == value})
            hint = f" (it is there in {others})" if others else ""
            what = f"{len(gone)} of {total} numbers are gone, first {value!r} {unit}{hint}"
            label = place if where == "stdout" else f"{name}:{place}"
            found.differs(case, f"{where}:{label}", what)


def in_words(folder):
    """Numbers in what was said and in the words of drawings, and how often."""
    found = Counter()
    for path in [folder / "said.txt", *sorted(folder.glob("out/*.svg"))]:
        text = path.read_text()
        if path.suffix == ".svg":
            text = " ".join(re.findall(r">([^<]*)<", text))
        found.update(re.findall(r"-?\d+(?:\.\d+)?", text))
    return found


def compare_words(case, old, new, found):
    gone = in_words(old) - in_words(new)
    if gone:
        found.differs(case, "words", f"{gone.total()} numbers are gone, first {min(gone)}")


def compare(all_cases, old, new, tolerance):
    found, empty = Found(), 0
    for name, _, _ in all_cases:
        a, b = old / safe(name), new / safe(name)
        if not a.is_dir() or not b.is_dir():
            found.differs(name, "case", "was not run")
            continue
        codes = [(folder / "exit").read_text() for folder in (a, b)]
        if codes[0] != codes[1]:
            said = (b / "stderr").read_text().strip().splitlines()
            found.differs(name, "exit", f"{codes[0]} is now {codes[1]}: {said[:1]}")
            continue
        if codes[0] != "0":
            empty += 1
            said = (a / "stderr").read_text().strip().splitlines()
            found.note(name, "exit", f"both end with {codes[0]}: {said[:1]}")
            continue
        compare_tables(name, a, b, tolerance, found)
        if (a / "said.txt").exists():
            compare_words(name, a, b, found)
        for where, pattern in [("stdout", "stdout.json"), ("files", "out/**/*.json")]:
            trees = [sorted(folder.glob(pattern)) for folder in (a, b)]
            compare_json(name, where, *trees, tolerance, found)
    return found, empty


def matches(text, pattern):
    """A shell's `*`, and nothing else: places hold brackets."""
    return re.fullmatch(".*".join(map(re.escape, pattern.split("*"))), text) is not None


def intended(path):
    lines = []
    if path and path.exists():
        for line in path.read_text().splitlines():
            line = line.strip()
            if line and not line.startswith("#"):
                case, place, reason = (part.strip() for part in line.split("|", 2))
                lines.append((case, place, reason))
    return lines


# --- that it can fail ------------------------------------------------------


def prove(all_cases, kept, tolerance):
    """Spoil copies of what one program wrote; each harm must be seen."""
    old = Path(kept)
    spoilt = 0

    def harm(name, change):
        nonlocal spoilt
        with tempfile.TemporaryDirectory() as at:
            new = Path(at) / "new"
            shutil.copytree(old, new)
            change(new)
            seen = compare(all_cases, old, new, tolerance)[0].differences
            print(f"  {name}: {'seen: ' + ' '.join(map(str, seen[0])) if seen else 'NOT SEEN'}")
            spoilt += not seen

    def edit(pattern, how):
        def change(new):
            path = sorted(p for p in new.glob(pattern) if p.stat().st_size)[0]
            text = path.read_text()
            path.write_text(how(text))
            assert path.read_text() != text, f"{path} was not changed"

        return change

    def last_digit(text):
        # Of fourteen: the last ones of seventeen may read as the same number.
        at = max(m.end() for m in re.finditer(r"\d\.\d{14}", text))
        return text[: at - 1] + str((int(text[at - 1]) + 1) % 10) + text[at:]

    def no_last_column(text):
        rows = list(csv.reader(io.StringIO(text)))
        out = io.StringIO()
        csv.writer(out, lineterminator="\n").writerows(row[:-1] for row in rows)
        return out.getvalue()

    harm("nothing changed but one digit of a CSV", edit("run_*/out/drop.csv", last_digit))
    harm("a column gone", edit("run_*/out/groups.csv", no_last_column))
    harm("a row gone", edit("*/fly.csv", lambda t: "\n".join(t.splitlines()[:-1]) + "\n"))
    harm("a table gone", lambda new: sorted(new.glob("run_*/out/drop.csv"))[0].unlink())
    harm("one digit of a JSON", edit("arrow_*/stdout.json", last_digit))
    kilo = lambda t: t.replace('"unit": "kg"', '"unit": "m"', 1)
    harm("one unit of a JSON", edit("arrow_*/stdout.json", kilo))
    harm("one digit on a tape", edit("tape_a4/out/tape.svg", lambda t: t.replace(">20.7 mm<", ">20.8 mm<")))
    harm("another exit code", edit("fly_*/exit", lambda t: "1"))
    same = compare(all_cases, old, old, tolerance)[0].differences
    print(f"  nothing at all: {'no difference' if not same else 'DIFFERENCES'}")
    return 1 if spoilt or same else 0


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("old", help="a program, or a folder kept by --keep")
    parser.add_argument("new", nargs="?", help="a program, or a folder kept by --keep")
    parser.add_argument("--scenarios", type=Path, default=SHIPPED)
    parser.add_argument("--only", default="*", help="cases by name, with wildcards")
    parser.add_argument("--flights", help="flights of every group, in place of the scenarios'")
    parser.add_argument(
        "--few", action="append", default=[], metavar="NAME=FLIGHTS", help="for one scenario"
    )
    parser.add_argument("--keep", type=Path, help="keep old/ and new/ in this folder")
    parser.add_argument("--tolerance", type=float, default=0.0, help="relative; none by default")
    parser.add_argument("--intended", type=Path, default=HERE / "same_numbers.txt")
    parser.add_argument("--notes", action="store_true", help="print notes too")
    parser.add_argument("--prove", action="store_true", help="show on OLD that harm is seen")
    args = parser.parse_args()

    for given in [args.old, args.new]:
        if given and not Path(given).exists():
            parser.error(f"there is no {given}")
    few = dict(part.split("=", 1) for part in args.few)
    if args.flights:
        few.setdefault("*", args.flights)
    all_cases = [c for c in cases(args.scenarios, few) if matches(c[0], args.only)]
    with tempfile.TemporaryDirectory() as temporary:
        at = Path(temporary)
        keep = args.keep or at
        copied(args.scenarios, at)
        sides = []
        for name, given in [("old", args.old), ("new", args.new)]:
            if given and Path(given).is_dir():
                sides.append(Path(given))
            elif given:
                run(given, all_cases, at, keep / name)
                sides.append(keep / name)
        if args.prove:
            return prove(all_cases, sides[0], args.tolerance)
        if len(sides) == 1:
            print(f"{len(all_cases)} cases run")
            return 0
        found, empty = compare(all_cases, *sides, args.tolerance)

    allowed, used, left = intended(args.intended), set(), 0
    for case, place, what in found.differences:
        match = [
            line for line in allowed
            if matches(case, line[0]) and matches(place, line[1])
        ]
        used.update(match)
        if not match:
            left += 1
            print(f"DIFFERS {case} | {place} | {what}")
    for line in allowed:
        if line not in used:
            print(f"unused  {' | '.join(line)}")
    if args.notes:
        for case, place, what in found.notes:
            print(f"note    {case} | {place} | {what}")
    print(
        f"{len(all_cases)} cases ({empty} refused by both), {left} differences, "
        f"{len(found.differences) - left} intended, {len(found.notes)} notes"
    )
    return 1 if left else 0


if __name__ == "__main__":
    sys.exit(main())
