#!/usr/bin/python3
"""Block letters by hand, for comparison: what a crew fills into the cells of a spreadsheet.

    byhand.py < jobs.jsonl

A job is a line of JSON: {"text": ..., "rows": n, "sections": [seats of a row in each]}. The answer is a line of JSON:
n strings of one character a seat, "#" for ink, the back row first; null where the letters find no room.

Letters are as high as the stands and drawn with one stroke, two seats and two rows thick (one in letters under
seven seats or ten rows), with at least a clear seat between them. M and W are wider, I, 1 and J narrower. A letter
never spans an aisle; the text is shared out so that its narrowest letters are as wide as can be, up to two thirds of
their height, and each section's share is centred. The view is ignored. None of the planner's code is used.
"""
import itertools
import json
import math
import sys

NARROWEST = 3


class Letter:
    """A grid of cells, h rows from the top by w seats, with strokes t thick."""

    def __init__(self, w, h, t):
        self.w, self.h, self.t = w, h, t
        self.cells = [[False] * w for _ in range(h)]

    def fill(self, top, bottom, left, right, ink=True):
        """Rows top to bottom and seats left to right, both ends counted."""
        for r in range(max(top, 0), min(bottom, self.h - 1) + 1):
            for c in range(max(left, 0), min(right, self.w - 1) + 1):
                self.cells[r][c] = ink

    def bar(self, top, left=0, right=None):
        self.fill(top, top + self.t - 1, left, self.w - 1 if right is None else right)

    def stem(self, left, top=0, bottom=None):
        self.fill(top, self.h - 1 if bottom is None else bottom, left, left + self.t - 1)

    def slope(self, top, left, bottom, end):
        """A stroke from seat left in row top to seat end in row bottom, across as thick as a stem."""
        step = (end - left) / max(bottom - top, 1)
        thick = round(self.t * math.hypot(1, step))
        for k in range(bottom - top + 1):
            at = int(left + step * k + 0.5) - (thick - self.t) // 2
            self.fill(top + k, top + k, at, at + thick - 1)

    def cut(self, *corners):
        """Takes the seat out of outer corners: "tl", "tr", "bl", "br"."""
        for corner in corners:
            r = 0 if corner[0] == "t" else self.h - 1
            c = 0 if corner[1] == "l" else self.w - 1
            self.cells[r][c] = False

    def mirror(self):
        """Adds the same from the right."""
        self.cells = [[a or b for a, b in zip(row, row[::-1])] for row in self.cells]

    def turn(self):
        self.cells = [row[::-1] for row in self.cells[::-1]]


def draw(char, w, h, t):
    g = Letter(w, h, t)
    right, foot = w - t, h - t  # where the right stem and the lowest bar begin
    mid = (h - t) // 2  # where the middle bar begins
    if char == "A":
        if w <= 4:
            g.bar(0), g.stem(0), g.stem(right), g.bar(h // 2), g.cut("tl", "tr")
        else:
            g.slope(0, right // 2, h // 2, 0), g.stem(0, h // 2), g.bar(h * 3 // 5), g.mirror()
    elif char in "BDPR":
        g.stem(0)
        g.bar(0)
        if char == "D":
            g.bar(foot), g.stem(right), g.cut("tr", "br")
        else:
            low = mid if char == "B" else (h - t + 1) // 2
            g.bar(low), g.stem(right, 0, low + t - 1), g.cut("tr")
            if char == "B":
                g.bar(foot), g.stem(right), g.cut("br")
                waist = low if t == 1 else low + t // 2 - 1
                g.fill(waist, waist + t - 1, w - 1, w - 1, False)
            else:
                g.fill(low + t - 1, low + t - 1, w - 1, w - 1, False)
            if char == "R":
                g.slope(low + t, max(right - 3, t), h - 1, right)
    elif char in "CG":
        g.stem(0), g.bar(0), g.bar(foot), g.cut("tl", "tr", "bl", "br")
        arm = max(t, h // 6)
        g.stem(right, 1, t + arm - 1)
        if char == "C":
            g.stem(right, foot - arm, h - 2)
        else:
            g.bar(mid + 1, w // 2), g.stem(right, mid + 1, h - 2)
    elif char in "EF":
        g.stem(0), g.bar(0), g.bar(mid, 0, w - 2)
        if char == "E":
            g.bar(foot)
    elif char == "H":
        g.stem(0), g.stem(right), g.bar(mid)
    elif char == "I":
        g.stem(0)
    elif char == "J":
        g.stem(right), g.bar(foot), g.stem(0, foot - max(t, h // 6), h - 1), g.cut("bl", "br")
    elif char == "K":
        g.stem(0)
        g.slope(0, right, mid, t), g.slope(mid, t, h - 1, right)
    elif char == "L":
        g.stem(0), g.bar(foot)
    elif char in "MW":
        g.stem(0), g.slope(0, 0, h // 2, right // 2), g.mirror()
        if char == "W":
            g.cells.reverse()
    elif char == "N":
        g.stem(0), g.stem(right), g.slope(0, 0, h - 1, right)
    elif char in "OQ0":
        g.stem(0), g.stem(right), g.bar(0), g.bar(foot), g.cut("tl", "tr", "bl", "br")
        if char == "Q":
            g.slope(h - 2 * t - 1, right - t, h - 1, right)
    elif char in "S5":
        g.bar(0), g.bar(mid), g.bar(foot), g.stem(0, 0, mid), g.stem(right, mid, h - 1)
        if char == "S":
            g.cut("tl", "tr", "bl", "br")
            g.stem(right, 1, t), g.stem(0, foot - 1, h - 2)
            g.fill(mid + t - 1, mid + t - 1, 0, 0, False), g.fill(mid, mid, w - 1, w - 1, False)
        else:
            g.cut("br"), g.fill(mid, mid, w - 1, w - 1, False)
    elif char == "T":
        g.bar(0), g.stem(right // 2), g.mirror()
    elif char == "U":
        g.stem(0), g.stem(right), g.bar(foot), g.cut("bl", "br")
    elif char == "V":
        g.slope(0, -0.49, h - 1, right // 2 - 0.49), g.mirror()  # the arms meet late
    elif char == "X":
        g.slope(0, 0, (h - 1) // 2, right // 2), g.mirror()
        for r in range(h // 2):
            g.cells[h - 1 - r] = g.cells[r]
    elif char == "Y":
        g.slope(0, 0, mid, right // 2), g.stem(right // 2, mid), g.mirror()
    elif char == "Z":
        g.bar(0), g.bar(foot), g.slope(t, right, foot - 1, 0)
    elif char == "1":
        g.stem(right), g.slope(0, right, t + 1, 0)
    elif char == "2":
        g.bar(0), g.cut("tl", "tr"), g.stem(0, 1, t), g.stem(right, 1, mid - 1), g.bar(foot)
        g.slope(mid, right, foot - 1, 0)
    elif char in "3":
        g.bar(0), g.bar(mid, t), g.bar(foot), g.stem(right), g.cut("tl", "tr", "bl", "br")
        g.stem(0, 1, t), g.stem(0, foot - 1, h - 2)
        g.fill(mid + (t - 1) // 2, mid + (t - 1) // 2, w - 1, w - 1, False)
    elif char == "4":
        bar = h * 3 // 5
        if w < 3 * t + 2:
            g.stem(0, 0, bar), g.stem(right), g.bar(bar)
        else:
            g.stem(right - 1), g.bar(bar), g.slope(0, right - 1, bar, 0)
    elif char in "69":
        g.stem(0), g.bar(0), g.bar(mid), g.bar(foot), g.stem(right, mid, h - 1), g.stem(right, 1, t)
        g.cut("tl", "tr", "bl", "br"), g.fill(mid, mid, w - 1, w - 1, False)
        if char == "9":
            g.turn()
    elif char == "7":
        g.bar(0), g.slope(t, right, h - 1, max((w - t) // 3, 0))
    elif char == "8":
        g.stem(0), g.stem(right), g.bar(0), g.bar(mid), g.bar(foot), g.cut("tl", "tr", "bl", "br")
        waist = mid + (t - 1) // 2
        g.fill(waist, waist, 0, 0, False), g.fill(waist, waist, w - 1, w - 1, False)
    else:
        sys.exit("byhand.py: no letter %r" % char)
    return ["".join(".#"[c] for c in row) for row in g.cells]


def width(char, w, t):
    """The seats of a letter where the usual one has w: strokes that meet in the middle want it to be whole seats."""
    odd = (w - t) % 2
    if char in "MW":
        return max(w + 2 - odd, 5)
    if char == "N":
        return max(w, 5)
    if char == "V":
        return max(w + odd, 5)
    if char in "XY":
        return w + odd
    if char == "T":
        return w - odd
    if char == "I":
        return t
    if char == "1":
        return 2 * t
    if char == "J":
        return max(w - 1, 3)
    return w


def thickness(w, rows):
    return 1 if w < 7 or rows < 10 else 2


def room(part, w, t, gap):
    return sum(width(c, w, t) for c in part) + gap * (len(part) - 1)


def shares(text, sections):
    """Every way to part the text into one share a section, in order, none left out."""
    for cuts in itertools.combinations_with_replacement(range(len(text) + 1), len(sections) - 1):
        ends = (0,) + cuts + (len(text),)
        yield [text[a:b] for a, b in zip(ends, ends[1:])]


def widest(share, sections, w, t):
    """As wide as each section's letters can be, from w to a seat more; None where w is too wide."""
    out = []
    for part, seats in zip(share, sections):
        fits = [v for v in (w, w + 1) if room(part, v, t, 1) <= seats]
        if part and not fits:
            return None
        out.append(max(fits, default=w))
    return out


def lay(text, rows, sections):
    most = max(round(rows * 2 / 3), NARROWEST)
    for w in range(most, NARROWEST - 1, -1):
        t = thickness(w, rows)
        found = []
        for share in shares(text, sections):
            wide = widest(share, sections, w, t)
            if wide:
                wide = [min(v, most) for v in wide]
                # the ink as near the middle of the stands as can be
                at, mean = 0, 0.0
                for part, seats in zip(share, sections):
                    mean += len(part) * (at + seats / 2)
                    at += seats
                off = abs(mean / len(text) - at / 2)
                used = sum(v * len(part) for part, v in zip(share, wide))
                found.append((-used, off, share, wide))
        if found:
            return write(min(found, key=lambda f: f[:2])[2:], rows, sections, t)
    return None


def write(found, rows, sections, t):
    picture = [""] * rows
    for part, w, seats in zip(*found, sections):
        gap = 2 if room(part, w, t, 2) <= seats else 1
        cells = [""] * rows
        for k, char in enumerate(part):
            letter = draw(char, width(char, w, t), rows, t)
            cells = [a + "." * gap * (k > 0) + b for a, b in zip(cells, letter)]
        before = (seats - len(cells[0])) // 2
        picture = [p + ("." * before + c).ljust(seats, ".") for p, c in zip(picture, cells)]
    return picture


def main():
    for line in sys.stdin:
        if line.strip():
            job = json.loads(line)
            print(json.dumps(lay(job["text"], job["rows"], job["sections"])))


if __name__ == "__main__":
    main()
