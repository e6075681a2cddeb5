"""What the lists of tables are written with: how a table's text becomes a file, and how a meaning is written short.

Nothing here reads a table to find out what it means. Meanings are written out beside every table, in short:
    S("A", "said", "1..3: 1-18", "4: 1-6 8-18", "5: #18")
is section A, the front said, rows 1, 2, 3 with seats 1 to 18, row 4 without seat 7, row 5 with 18 seats unnumbered.
"""

import datetime
import io
import re
import zipfile

import openpyxl
from openpyxl.comments import Comment
from openpyxl.styles import Font, PatternFill
from openpyxl.utils.datetime import CALENDAR_MAC_1904

STANDS, ROSTERS = [], []


# ---- meanings

def spread(names):
    """"1..3" is 1, 2, 3; "C..A" is C, B, A; anything else is one name, and "A, B" two."""
    out = []
    for name in names.split(", "):
        ends = name.split("..")
        if len(ends) == 1:
            out.append(name)
        elif ends[0].isdigit():
            a, b = int(ends[0]), int(ends[1])
            out += [str(n) for n in (range(a, b + 1) if a <= b else range(a, b - 1, -1))]
        else:
            a, b = ord(ends[0]), ord(ends[1])
            out += [chr(n) for n in (range(a, b + 1) if a <= b else range(a, b - 1, -1))]
    return out


def S(name, front, *rows, reserved=None):
    assert front in ("said", "assumed", "unsure"), front
    out = {"name": name, "front": front, "rows": []}
    for row in rows:
        names, seats = row.rsplit(": ", 1)
        for n in spread(names):
            if seats.startswith("#"):
                out["rows"].append({"row": n, "count": int(seats[1:])})
            else:
                out["rows"].append({"row": n, "seats": check(seats)})
    if reserved:
        out["reserved"] = reserved
    return out


def check(seats):
    last = 0
    for part in seats.split(" "):
        ends = [int(x) for x in part.split("-")]
        assert ends == sorted(ends) and ends[0] > last, seats
        last = ends[-1]
    return seats


def every(step, first, last):
    """Seats first, first+step ... last, written out."""
    return " ".join(str(n) for n in range(first, last + 1, step))


def stand(kind, name, means, file, *sections, alts=None, called=(), or_front=None):
    """alts are other readings; called are lists of other names that the sections may have, in every reading of as many;
    or_front is what else may be said of the front."""
    readings = [list(sections)] + list(alts or [])
    if or_front:
        readings += [[dict(s, front=or_front) for s in r] for r in readings]
    for r in list(readings):
        readings += [[renamed(s, n) for s, n in zip(r, names)] for names in called if len(names) == len(r)]
    readings = [r for i, r in enumerate(readings) if r not in readings[:i]]
    says = {"means": means, "sections": readings[0]}
    if readings[1:]:
        says["or"] = readings[1:]
    STANDS.append((kind, name, file, says))


def renamed(section, name):
    out = dict(section, name=name)
    if "reserved" in section:
        before = section["name"] + "-" if section["name"] else ""
        out["reserved"] = [(name + "-" if name else "") + seat[len(before):] for seat in section["reserved"]]
    return out


def stand_ask(kind, name, means, ask, file):
    STANDS.append((kind, name, file, {"means": means, "ask": ask}))


def R(*groups, wheelchair=0, companion=0, not_filmed=0, film_unknown=0):
    out = {"groups": [{"name": n, "people": p} for n, p in groups]}
    for key, value in (("wheelchair", wheelchair), ("companion", companion), ("not_filmed", not_filmed),
                       ("film_unknown", film_unknown)):
        if value:
            out[key] = value
    return out


def roster(kind, name, means, file, *groups, alts=None, **people):
    says = {"means": means, **R(*groups, **people)}
    if alts:
        says["or"] = alts
    ROSTERS.append((kind, name, file, says))


def roster_ask(kind, name, means, ask, file):
    ROSTERS.append((kind, name, file, {"means": means, "ask": ask}))


# ---- text files

def csv(text, sep=None, enc="utf-8", eol="\n", end=True):
    """The text as it stands; with sep, every | is that separator."""
    text = text.strip("\n")
    if sep:
        text = text.replace("|", sep)
    text += "\n" if end else ""
    text = text.replace("\n", eol)
    if enc == "utf-16-le-bom":
        data = b"\xff\xfe" + text.encode("utf-16-le")
    elif enc == "utf-16-be-bom":
        data = b"\xfe\xff" + text.encode("utf-16-be")
    else:
        data = text.encode(enc)
    return ".csv", lambda: data, False


# ---- workbooks

FILL = {"": "FFBFBFBF", "y": "FFFFFF00", "r": "FFFF0000", "g": "FF92D050", "b": "FF5B9BD5", "k": "FF000000"}


def sheet(title, grid, merge=(), hide=(), hidecols=(), hidden=False, bold=(), widths=None, at="A1",
          notes=None):
    """notes are the comments pinned to cells; at is where the grid's first cell lies."""
    return dict(title=title, grid=grid, merge=merge, hide=hide, hidecols=hidecols, hidden=hidden, bold=bold,
                widths=widths, at=at, notes=notes)


def put(cell, text, cached):
    """One cell as typed. 12 a number, '12 a text, =F~v a formula and its value, @2026-09-07 a date, {fmt} its
    format, [] a filled cell ([y] yellow, [r] red, [g] green, [b] blue, [k] black), ~~a struck through, !TRUE a truth
    value, #REF! an error, \\n a line break, <bar> a bar."""
    m = re.match(r"^\[([a-z]?)\](.*)$", text)
    if m:
        cell.fill = PatternFill("solid", fgColor=FILL[m[1]])
        text = m[2].strip()
    if text.startswith("~~"):
        cell.font = Font(strike=True)
        text = text[2:].strip()
    text = text.replace("<bar>", "|")
    m = re.match(r"^(.*?)\{(.*)\}$", text)
    form = None
    if m:
        text, form = m[1].strip(), m[2]
    if text == "":
        return
    if text.startswith("'"):
        cell.value = text[1:].replace("\\n", "\n")
        cell.data_type = "s"
        cell.number_format = "@"
    elif text in ("!TRUE", "!FALSE"):
        cell.value = text == "!TRUE"
    elif re.match(r"^#[A-Z/0]+[!?]$", text):
        cell.value = text
        cell.data_type = "e"
    elif text.startswith("="):
        formula, value = text.rsplit("~", 1)
        cell.value = formula
        cached[cell.coordinate] = value
    elif text.startswith("@"):
        cell.value = datetime.datetime.strptime(text[1:], "%Y-%m-%d")
        form = form or "d-mmm"
    elif re.match(r"^-?\d+$", text):
        cell.value = int(text)
    elif re.match(r"^-?\d+\.\d+$", text):
        cell.value = float(text)
    else:
        cell.value = text.replace("\\n", "\n")
        cell.data_type = "s"
    if form:
        cell.number_format = form


def book(*sheets, office=False, from1904=False, written=None):
    """A workbook; with office=True it goes once through LibreOffice, as if saved there; from1904 counts days as some
    old programs did; written says how other programs write cells: "inline" texts in the cells, "runs" texts in two pieces of
    which one is bold, "places" cells without their places, which follow one another."""

    def data():
        wb = openpyxl.Workbook()
        if from1904:
            wb.epoch = CALENDAR_MAC_1904
        wb.remove(wb.active)
        cached = []
        for s in sheets:
            ws = wb.create_sheet(s["title"])
            values = {}
            top = ws[s["at"]]
            for r, line in enumerate(s["grid"].strip("\n").split("\n")):
                for c, text in enumerate(line.split("|")):
                    put(ws.cell(top.row + r, top.column + c), text.strip(), values)
            for area in s["merge"]:
                ws.merge_cells(area)
            for r in s["hide"]:
                ws.row_dimensions[r].hidden = True
            for c in s["hidecols"]:
                ws.column_dimensions[c].hidden = True
            for r in s["bold"]:
                for cell in ws[r]:
                    cell.font = Font(bold=True)
            if s["widths"]:
                for c, w in s["widths"].items():
                    ws.column_dimensions[c].width = w
            for where, note in (s["notes"] or {}).items():
                ws[where].comment = Comment(note, "Tilda")
            if s["hidden"]:
                ws.sheet_state = "hidden"
            cached.append(values)
        raw = io.BytesIO()
        wb.save(raw)
        return steady(raw.getvalue(), cached, written)

    return ".xlsx", data, office


def shared(parts):
    """Texts go from the cells, where openpyxl leaves them, to the list of shared texts, where most programs keep them."""
    texts = []

    def move(m):
        if m[2] not in texts:
            texts.append(m[2])
        return '%s t="s"><v>%d</v></c>' % (m[1], texts.index(m[2]))

    for name in parts:
        if name.startswith("xl/worksheets/sheet"):
            parts[name] = re.sub(r'(<c r="\w+"[^>]*) t="inlineStr"><is>(<t[^>]*>[^<]*</t>)</is></c>', move, parts[name])
            assert "inlineStr" not in parts[name]
    parts["xl/sharedStrings.xml"] = (
        '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<sst xmlns="%s" uniqueCount="%d">%s</sst>' % (
            "http://schemas.openxmlformats.org/spreadsheetml/2006/main", len(texts),
            "".join("<si>%s</si>" % t for t in texts)))
    parts["[Content_Types].xml"] = parts["[Content_Types].xml"].replace("</Types>", (
        '<Override PartName="/xl/sharedStrings.xml" ContentType="application/vnd.openxmlformats-officedocument.'
        'spreadsheetml.sharedStrings+xml"/></Types>'))
    parts["xl/_rels/workbook.xml.rels"] = parts["xl/_rels/workbook.xml.rels"].replace("</Relationships>", (
        '<Relationship Id="rIdTexts" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/'
        'sharedStrings" Target="/xl/sharedStrings.xml"/></Relationships>'))


def steady(raw, cached=None, written=None):
    """The same workbook with fixed times, and with the values that formulas had when it was saved."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(raw)) as src:
        parts = {name: src.read(name).decode() for name in src.namelist()}
    if "xl/sharedStrings.xml" not in parts and written != "inline":
        shared(parts)
    for name, text in parts.items():
        if name == "docProps/core.xml":
            text = re.sub(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", "2026-03-01T09:00:00Z", text)
        m = re.match(r"xl/worksheets/sheet(\d+)\.xml$", name)
        if m and cached:
            for where, value in cached[int(m[1]) - 1].items():
                number = re.match(r"^-?\d+(\.\d+)?$", value)
                text, n = re.subn(
                    r'<c r="%s"([^>]*)><f>(.*?)</f><v\s*/?>(</v>)?</c>' % where,
                    lambda g: '<c r="%s"%s%s><f>%s</f><v>%s</v></c>' % (
                        where, g[1], "" if number else ' t="e"' if value.startswith("#") else ' t="str"', g[2], value),
                    text)
                assert n == 1, (where, value)
        if m and written == "places":
            text = re.sub(r'<(c|row) r="\w+"', r"<\1", text)
        if name == "xl/sharedStrings.xml" and written == "runs":
            text = re.sub(r"<si><t[^>]*>(.)([^<]+)</t></si>", r'<si><r><rPr><b/></rPr><t xml:space="preserve">\1</t></r>'
                          r'<r><t xml:space="preserve">\2</t></r></si>', text)
        parts[name] = text
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as dst:
        for name, text in parts.items():
            info = zipfile.ZipInfo(name, (2026, 3, 1, 9, 0, 0))
            info.compress_type = zipfile.ZIP_DEFLATED
            info.external_attr = 0o644 << 16
            dst.writestr(info, text.encode())
    return out.getvalue()
