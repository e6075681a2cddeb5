#!/usr/bin/env python3
"""Writes the tables and their meanings into stands/ and rosters/: half of the older ones in dev, half in opened, the
fresh ones in held.

Needs Python 3 and openpyxl; a few workbooks are saved once through LibreOffice (soffice) so that they are built as its
files are; where that is not installed they are left as they lie here. Run again, it writes the same bytes (those few as
far as it is the same LibreOffice).
"""

import sys

sys.dont_write_bytecode = True

import collections
import json
import pathlib
import random
import shutil
import subprocess
import tempfile

import kit

HERE = pathlib.Path(__file__).resolve().parent
SEED = 20260301
OPENED = {"stands": 6, "rosters": 2}  # the last source file whose tables have been looked at; those after it are held


def halves(tables):
    """Which went into opened: in every kind half, drawn at random; a kind of odd number gives its odd one by turns."""
    rng = random.Random(SEED)
    kinds = collections.defaultdict(list)
    for kind, name, _, _ in tables:
        kinds[kind].append(name)
    opened, turn = set(), False
    for kind in sorted(kinds):
        names = sorted(kinds[kind])
        rng.shuffle(names)
        n = len(names) // 2
        if len(names) % 2:
            n += turn
            turn = not turn
        opened.update(names[:n])
    return opened


def through_office(todo):
    """Saves workbooks through LibreOffice: {name: bytes} to {name: bytes}."""
    office = shutil.which("soffice")
    if not office or not todo:
        return {}
    out = {}
    with tempfile.TemporaryDirectory() as tmp:
        tmp = pathlib.Path(tmp)
        (tmp / "in").mkdir()
        for name, data in todo.items():
            (tmp / "in" / (name + ".xlsx")).write_bytes(data)
        subprocess.run([office, "-env:UserInstallation=file://%s/profile" % tmp, "--headless", "--convert-to",
                        "xlsx:Calc MS Excel 2007 XML", "--outdir", str(tmp / "out")]
                       + [str(tmp / "in" / (n + ".xlsx")) for n in todo],
                       check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        for name in todo:
            out[name] = kit.steady((tmp / "out" / (name + ".xlsx")).read_bytes())
    return out


def main():
    for folder, tables in (("stands", kit.STANDS), ("rosters", kit.ROSTERS)):
        for n in range(1, len(list(HERE.glob(folder + "_*.py"))) + 1):
            __import__("%s_%d" % (folder, n))
            if n == OPENED[folder]:
                seen = {t[1] for t in tables}
                opened = halves(tables)
        names = [t[1] for t in tables]
        assert len(names) == len(set(names)), [n for n in names if names.count(n) > 1]
        office = through_office({name: file[1]() for _, name, file, _ in tables if file[2]})
        keep = set()
        for _, name, (ending, data, via), says in tables:
            where = HERE / folder / ("held" if name not in seen else "opened" if name in opened else "dev")
            where.mkdir(parents=True, exist_ok=True)
            target = where / (name + ending)
            if not via:
                target.write_bytes(data())
            elif name in office:
                target.write_bytes(office[name])
            meaning = where / (name + ".json")
            meaning.write_text(json.dumps(says, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
            keep |= {target, meaning}
        for old in (HERE / folder).glob("*/*"):
            if old not in keep:
                old.unlink()
        kinds = collections.Counter(t[0] for t in tables)
        print(folder, len(tables), "held", len(tables) - len(seen), dict(kinds))


main()
