#!/usr/bin/python3
"""Shrinks pictures by area average, as a film is shrunk for a phone.

    shrink.py < jobs.jsonl

A job is a line of JSON: {"picture": file, "width": pixels, "small": file to write}.
Needs python3-opencv; its INTER_AREA is the mean over each new pixel's area.
"""
import json
import sys

import cv2

for line in sys.stdin:
    job = json.loads(line)
    picture = cv2.imread(job["picture"], cv2.IMREAD_COLOR)
    height = round(picture.shape[0] * job["width"] / picture.shape[1])
    cv2.imwrite(job["small"], cv2.resize(picture, (job["width"], height), interpolation=cv2.INTER_AREA))
    print("{}")
