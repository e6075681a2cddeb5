#!/usr/bin/python3
"""Cuts one line of text out of a picture of stands, for read.mjs.

    crop.py < jobs.jsonl

A job is a line of JSON: {"plan": file, "cue": n, "picture": file, "ground": "#rrggbb", "ink": "#rrggbb",
"out": folder}. The answer is a line of JSON: {"map": [eight files], "film": [eight files]}, or no files where
no seat shows the ink. From the plan it reads only camera, picture, palette, the card of each seat (four corners in
metres) and the cue's colours.

Eight crops 48 pixels high as filmed, and eight as a map of ground and ink, in which a pixel counts when its
colour is within 45 (distance in RGB) of the ground card or 40 of the ink card: blurred by .35, .6, .9 and
1.2 card widths so that cards merge, with .12 and .3 of the text's height about it. The recipe is frozen: the set is
the same for every case, and nothing in it was chosen by what is read.

With "eye": file the job also writes a crop for people: as filmed, .6 card widths, 900 pixels wide. Needs
python3-opencv.
"""
import json
import os
import sys

import cv2
import numpy as np

BLURS, MARGINS = (0.35, 0.6, 0.9, 1.2), (0.12, 0.3)
NEAR_GROUND, NEAR_INK = 45, 40
HIGH, WIDEST = 48, 1920
EYE_BLUR, EYE_MARGIN, EYE_WIDE = 0.6, 0.3, 900


def bgr(text):
    return np.array([int(text[i:i + 2], 16) for i in (5, 3, 1)], np.float32)


def corners(plan, scale):
    """The corners of every seat's card in the picture: no numbers for a seat without a card."""
    camera = plan["camera"]
    cards = np.array([s.get("card") or [[np.nan] * 3] * 4 for s in plan["seats"]], float)
    at = (cards - np.array(camera["position"], float)) @ np.array(camera["rotation"], float).T
    return (at[..., :2] / at[..., 2:] * camera["focal_px"] + np.array(camera["center"])) * scale


def around(quads):
    return np.nanmin(quads, (0, 1)), np.nanmax(quads, (0, 1))


class Shot:
    """A picture, where its text and its cards are, and how wide a card is."""

    def __init__(self, job):
        with open(job["plan"]) as f:
            plan = json.load(f)
        picture = cv2.imread(job["picture"], cv2.IMREAD_COLOR)
        if picture is None:
            sys.exit("crop.py: cannot read " + job["picture"])
        if picture.shape[1] > WIDEST:
            high = round(WIDEST * picture.shape[0] / picture.shape[1])
            picture = cv2.resize(picture, (WIDEST, high), interpolation=cv2.INTER_AREA)
        self.ground, self.ink = bgr(job["ground"]), bgr(job["ink"])
        hexes = [p["hex"].lower() for p in plan["palette"]]
        colours = np.array(plan["cues"][job.get("cue", 0)]["colours"])
        quads = corners(plan, picture.shape[1] / plan["picture"][0])
        shows = colours == hexes.index(job["ink"].lower())
        self.empty = not shows.any()
        if self.empty:
            return
        self.card = np.nanmedian(np.linalg.norm(quads[:, 1] - quads[:, 0], axis=1))
        text, cards = around(quads[shows]), around(quads[colours >= 0])
        # only what lies about the cards is looked at
        first = np.maximum((cards[0] - 4 * self.card).astype(int), 0)
        last = (cards[1] + 4 * self.card).astype(int)
        self.picture = picture[first[1]:last[1], first[0]:last[0]].astype(np.float32)
        self.text, self.cards = [p - first for p in text], [p - first for p in cards]

    def filmed(self, blur):
        return cv2.GaussianBlur(self.picture, (0, 0), blur * self.card)

    def maps(self, blurs):
        """Black ink on white, whatever is no card left out."""
        ground = np.linalg.norm(self.picture - self.ground, axis=2)
        ink = np.linalg.norm(self.picture - self.ink, axis=2)
        is_ground = (ground < NEAR_GROUND) & (ground <= ink)
        is_ink = (ink < NEAR_INK) & (ink < ground)
        for blur in blurs:
            weight = cv2.GaussianBlur((is_ground | is_ink).astype(np.float32), (0, 0), blur * self.card)
            value = cv2.GaussianBlur(is_ink.astype(np.float32), (0, 0), blur * self.card)
            grey = 255 * (1 - np.clip(value / (weight + 0.02), 0, 1))
            yield cv2.merge([grey, grey, grey])

    def crop(self, picture, margin, fill):
        """What lies about the text. Outside the cards there is ground, so that walls and floor are no strokes."""
        extra = margin * (self.text[1][1] - self.text[0][1])
        x0, y0 = (self.text[0] - extra).astype(int)
        x1, y1 = np.ceil(self.text[1] + extra).astype(int)
        out = np.empty((y1 - y0, x1 - x0, 3), np.float32)
        out[:] = fill
        left, top = np.maximum(np.maximum((x0, y0), self.cards[0].astype(int)), 0)
        right, bottom = np.minimum(np.minimum((x1, y1), np.ceil(self.cards[1]).astype(int)), picture.shape[1::-1])
        out[top - y0:bottom - y0, left - x0:right - x0] = picture[top:bottom, left:right]
        return out


def sized(crop, wide, high):
    shrinks = crop.shape[0] > high
    crop = cv2.resize(crop, (wide, high), interpolation=cv2.INTER_AREA if shrinks else cv2.INTER_CUBIC)
    return np.clip(crop, 0, 255).astype(np.uint8)


def crops(shot):
    for blur, drawn in zip(BLURS, shot.maps(BLURS)):
        filmed = shot.filmed(blur)
        for margin in MARGINS:
            for kind, picture, fill in (("film", filmed, shot.ground), ("map", drawn, 255)):
                crop = shot.crop(picture, margin, fill)
                wide = max(16, round(crop.shape[1] * HIGH / crop.shape[0]))
                yield kind, "%s-%g-%g.png" % (kind, blur, margin), sized(crop, wide, HIGH)


def main():
    for line in sys.stdin:
        job = json.loads(line)
        shot = Shot(job)
        answer = {"map": [], "film": []}
        if not shot.empty:
            os.makedirs(job["out"], exist_ok=True)
            for kind, name, picture in crops(shot):
                answer[kind].append(os.path.join(job["out"], name))
                cv2.imwrite(answer[kind][-1], picture)
            if job.get("eye"):
                crop = shot.crop(shot.filmed(EYE_BLUR), EYE_MARGIN, shot.ground)
                high = round(crop.shape[0] * EYE_WIDE / crop.shape[1])
                os.makedirs(os.path.dirname(job["eye"]), exist_ok=True)
                cv2.imwrite(job["eye"], sized(crop, EYE_WIDE, high))
        print(json.dumps(answer))


if __name__ == "__main__":
    main()
