#!/usr/bin/python3
"""The way of image tools, for comparison: a bold face shrunk to the grid of seats.

    imagetool.py < jobs.jsonl

A job is a line of JSON: {"text": ..., "rows": n, "cols": n, "wide": how wide a seat is beside
the height of a row, 1 for square cells}. The answer is a line of JSON: n strings of n
characters, "#" for ink, the back row first. Aisles and the view are ignored. Needs
ImageMagick's convert.
"""
import json
import subprocess
import sys


def main():
    for line in sys.stdin:
        if not line.strip():
            continue
        job = json.loads(line)
        rows, cols = job["rows"], job["cols"]
        squeeze = "%.1f%%x100%%!" % (100 / job.get("wide", 1))
        done = subprocess.run(
            ["convert", "-background", "white", "-fill", "black", "-font", "DejaVu-Sans-Bold", "-pointsize", "200",
             "label:" + job["text"], "-trim", "+repage", "-resize", squeeze,
             "-resize", "%dx%d" % (max(cols - 2, 1), max(rows - 2, 1)), "-gravity", "center",
             "-extent", "%dx%d" % (cols, rows), "-threshold", "50%", "-compress", "none", "pgm:-"],
            capture_output=True, check=True)
        values = done.stdout.split()[4:]
        print(json.dumps(["".join("#" if int(v) == 0 else "." for v in values[r * cols:(r + 1) * cols]) for r in range(rows)]))


if __name__ == "__main__":
    main()
