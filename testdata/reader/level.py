#!/usr/bin/python3
"""A second reader, which first takes lean and keystone out of the picture, as a person's eye does.

    level.py < jobs.jsonl > readings.jsonl

Jobs and answers are those of read.py; a job also gives "corners": the upper left, upper
right, lower right and lower left corner of the stands in the picture. They are
stretched to a rectangle, and the rest is read.py's recipe.
"""
import cv2
import numpy as np

import read

MARGIN = 40


def blocks(job):
    picture = cv2.imread(job["picture"], cv2.IMREAD_COLOR)
    at = np.array(job["corners"], np.float32)
    side = lambda a, b: float(np.linalg.norm(at[a] - at[b]))
    wide, high = (side(0, 1) + side(3, 2)) / 2, (side(0, 3) + side(1, 2)) / 2
    to = np.array([(0, 0), (wide, 0), (wide, high), (0, high)], np.float32) + MARGIN
    size = (int(wide) + 2 * MARGIN, int(high) + 2 * MARGIN)
    m = cv2.getPerspectiveTransform(at, to)
    return read.develop(cv2.warpPerspective(picture, m, size, flags=cv2.INTER_LINEAR, borderValue=(70, 70, 70)), job)


if __name__ == "__main__":
    read.main(blocks)
