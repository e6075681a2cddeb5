#!/usr/bin/python3
"""The outside reader: a general OCR program reads pictures of stands.

    read.py < jobs.jsonl > readings.jsonl

A job is a line of JSON: {"picture": file, "ground": "#rrggbb", "ink": "#rrggbb",
"card_px": width of a card in pixels, "lines": number of lines}. The answer is a
line of JSON: {"readings": [four texts], "text": the one most of them agree on, or
null on a tie}. Lines are parted by a space; O counts as 0 and I as 1.

The recipe is frozen. If it must change, publish the old figures beside the new
ones. Needs python3-opencv and tesseract-ocr (5.x, language eng).

 1. A pixel weighs 1 if its colour is within 45 (distance in RGB) of the ground
    card or 40 of the ink card, else 0: clothes, skin and benches say nothing.
 2. The picture is shrunk to 6 pixels a card.
 3. Value times weight and weight are blurred by .6, .8 and 1.0 card widths and
    divided, with EMPTY added below, so that it is ground where hardly any card is near.
 4. The block is scaled to 50 pixels a line, stretched about Otsu's threshold, black
    on white with a border of 20 pixels.
 5. A fourth reading: the middle blur, 70 pixels a line, black and white only.
 6. tesseract --psm 7 (6 for several lines and for the fourth), A-Z and 0-9 only, no
    dictionaries. The four answers vote.
"""
import collections
import json
import os
import subprocess
import sys
import tempfile

import cv2
import numpy as np

NEAR_GROUND, NEAR_INK = 45, 40
CARD = 6.0
BLURS = (0.6, 0.8, 1.0)
EMPTY = 0.02
GREY_HEIGHT, BINARY_HEIGHT, BORDER = 50, 70, 20
STRETCH = 1.5
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"


def rgb(text):
    return [int(text[i:i + 2], 16) for i in (1, 3, 5)]


def far(picture, colour):
    """Squared distance from a colour, by pixel; pictures are blue, green, red here."""
    total = np.zeros(picture.shape[:2], np.int32)
    for channel, value in enumerate(colour[::-1]):
        d = picture[:, :, channel].astype(np.int32) - value
        total += d * d
    return total


def blocks(job):
    """The four pictures for the OCR program, and whether each is binary."""
    picture = cv2.imread(job["picture"], cv2.IMREAD_COLOR)
    if picture is None:
        sys.exit("read.py: cannot read " + job["picture"])
    return develop(picture, job)


def develop(picture, job):
    ground = far(picture, rgb(job["ground"]))
    ink = far(picture, rgb(job["ink"]))
    is_ink = (ink < NEAR_INK * NEAR_INK) & (ink <= ground)
    is_ground = (ground < NEAR_GROUND * NEAR_GROUND) & ~is_ink
    weight = (is_ink | is_ground).astype(np.float32)
    value = is_ink.astype(np.float32)
    k = CARD / job["card_px"]
    size = (max(1, round(picture.shape[1] * k)), max(1, round(picture.shape[0] * k)))
    weight = cv2.resize(weight, size, interpolation=cv2.INTER_AREA)
    value = cv2.resize(value, size, interpolation=cv2.INTER_AREA)
    near = cv2.GaussianBlur(weight, (0, 0), BLURS[1] * CARD) > 0.12
    rows, cols = np.where(near.any(1))[0], np.where(near.any(0))[0]
    if len(rows) == 0:
        blank = np.full((90, 90), 255, np.uint8)
        return [(blank, False)] * 3 + [(blank, True)]
    top, bottom, left, right = rows[0], rows[-1] + 1, cols[0], cols[-1] + 1
    out = []
    for blur, high, binary in [(b, GREY_HEIGHT, False) for b in BLURS] + [(BLURS[1], BINARY_HEIGHT, True)]:
        w = cv2.GaussianBlur(weight, (0, 0), blur * CARD)
        v = cv2.GaussianBlur(value, (0, 0), blur * CARD)
        seen = (v / (w + EMPTY))[top:bottom, left:right]
        f = high * job.get("lines", 1) / seen.shape[0]
        seen = cv2.resize(seen, None, fx=f, fy=f, interpolation=cv2.INTER_AREA if f < 1 else cv2.INTER_CUBIC)
        grey = np.clip(seen * 255, 0, 255).astype(np.uint8)
        cut, _ = cv2.threshold(grey, 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
        if binary:
            grey = np.where(grey > cut, 0, 255).astype(np.uint8)
        else:
            grey = np.clip(128 - STRETCH * (grey.astype(np.float32) - cut), 0, 255).astype(np.uint8)
        grey = cv2.copyMakeBorder(grey, BORDER, BORDER, BORDER, BORDER, cv2.BORDER_CONSTANT, value=255)
        out.append((grey, binary))
    return out


def ocr(names, psm):
    if not names:
        return []
    listing = names[0] + ".list"
    with open(listing, "w") as f:
        f.write("\n".join(names) + "\n")
    done = subprocess.run(
        ["tesseract", listing, "stdout", "--psm", str(psm), "--dpi", "150",
         "-c", "tessedit_char_whitelist=" + LETTERS, "-c", "load_system_dawg=0", "-c", "load_freq_dawg=0"],
        env=dict(os.environ, OMP_THREAD_LIMIT="1"), capture_output=True, text=True, check=True)
    pages = done.stdout.split("\f")
    if len(pages) < len(names):
        sys.exit("read.py: %d answers for %d pictures" % (len(pages), len(names)))
    return [" ".join(p.split()) for p in pages[:len(names)]]


def plain(text):
    """What counts as the same: O and 0, I and 1, and no spaces within a line."""
    return text.replace("O", "0").replace("I", "1")


def vote(readings):
    count = collections.Counter(readings).most_common()
    if len(count) > 1 and count[0][1] == count[1][1]:
        return None
    return count[0][0]


def answers(jobs, blocks=blocks):
    """The reading of every job, by the pictures that blocks makes of it."""
    keep = os.environ.get("READER_KEEP")
    with tempfile.TemporaryDirectory() as tmp:
        tmp = keep or tmp
        queues = {6: [], 7: []}
        for i, job in enumerate(jobs):
            for k, (image, binary) in enumerate(blocks(job)):
                name = os.path.join(tmp, "%06d-%d.png" % (i, k))
                cv2.imwrite(name, image)
                several = job.get("lines", 1) > 1
                queues[6 if binary or several else 7].append((i, k, name))
        readings = [[None] * 4 for _ in jobs]
        for psm, queue in queues.items():
            for (i, k, _), text in zip(queue, ocr([q[2] for q in queue], psm)):
                one = jobs[i].get("lines", 1) == 1
                readings[i][k] = plain(text.replace(" ", "") if one else text)
        return readings


def main(blocks=blocks):
    for r in answers([json.loads(line) for line in sys.stdin if line.strip()], blocks):
        print(json.dumps({"readings": r, "text": vote(r)}))


if __name__ == "__main__":
    main()
