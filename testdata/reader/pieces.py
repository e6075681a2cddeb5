#!/usr/bin/python3
"""Counts the connected pieces of a picture of seats, and the holes in them.

    pieces.py < jobs.jsonl > counts.jsonl

A job is {"seats": [[[x, y] × 4] …]}: the corners of every seat that shows the colour in question. They are
drawn as filled quadrangles, and OpenCV's connectedComponents counts: pieces touch also at corners (8
neighbours), holes do not (4 neighbours). Instead of seats a job may name a "picture", of which all that is lighter
than grey counts. An answer is {"pieces": n, "holes": n, "areas": [n …]}: the difference of
the first two is Euler's number, the areas are the pieces' in pixels, smallest first.
"""
import json
import sys

import cv2
import numpy as np

SCALE = 8.0  # drawn pixels a seat's width


def count(seats):
    if not seats:
        return {"pieces": 0, "holes": 0}
    quads = np.array(seats, np.float64)
    wide = np.median(np.abs(quads[:, 1, 0] - quads[:, 0, 0]))
    high = np.median(np.abs(quads[:, 3, 1] - quads[:, 0, 1]))
    quads[:, :, 0] *= SCALE / wide
    quads[:, :, 1] *= SCALE / high
    quads -= quads.reshape(-1, 2).min(axis=0) - 2
    size = np.ceil(quads.reshape(-1, 2).max(axis=0)).astype(int) + 3
    picture = np.zeros((size[1], size[0]), np.uint8)
    for q in quads:
        cv2.fillConvexPoly(picture, np.round(q).astype(np.int32), 255)
    return tell(picture)


def tell(picture):
    pieces, _, stats, _ = cv2.connectedComponentsWithStats(picture, connectivity=8)
    holes = cv2.connectedComponents(255 - picture, connectivity=4)[0] - 2
    areas = sorted(int(a) for a in stats[1:, cv2.CC_STAT_AREA])
    return {"pieces": pieces - 1, "holes": int(holes), "areas": areas}


for line in sys.stdin:
    job = json.loads(line)
    if "picture" in job:
        picture = cv2.copyMakeBorder(cv2.imread(job["picture"], cv2.IMREAD_GRAYSCALE), 2, 2, 2, 2, cv2.BORDER_CONSTANT, value=0)
        print(json.dumps(tell(cv2.threshold(picture, 127, 255, cv2.THRESH_BINARY)[1])))
    else:
        print(json.dumps(count(job["seats"])))
