#!/usr/bin/python3
"""Draws the stands from a plan, without any of the planner's own drawing code.

    draw.py < jobs.jsonl

A job is a line of JSON: {"plan": file, "cue": n, "picture": file to write, "seed": n,
"width": pixels or 0, "mark": n, "empty": share, "wrong": share, "off": metres,
"roll": degrees}. From the plan it reads only camera (position, rotation, focal_px,
center), picture, palette, and of each seat position, card (four corners in
metres) and use, and the cue's colours. People, clothes, hair, hands, benches and
errors are this program's own: by default each card is off by 5 cm up or down and
sideways and rolled by 8 degrees (standard deviations). Needs python3-opencv.
"""
import json
import sys

import cv2
import numpy as np

CLOTHES = [(62, 66, 84), (40, 44, 52), (96, 88, 78), (120, 120, 124), (70, 40, 44), (48, 72, 60),
           (134, 110, 92), (88, 104, 128), (150, 148, 140), (56, 52, 48), (110, 70, 60), (36, 56, 88)]
SKIN = [(224, 178, 150), (196, 146, 116), (150, 106, 80), (104, 72, 54), (236, 196, 170)]
HAIR = [(30, 24, 22), (58, 42, 32), (96, 70, 44), (20, 18, 18), (140, 112, 76), (120, 118, 116)]
SHIFT = 4


def colour(rgb):
    return tuple(int(c) for c in rgb[::-1])


class Stage:
    """A pinhole camera that paints convex polygons given in metres."""

    def __init__(self, camera, size, zoom):
        self.r = np.array(camera["rotation"], float)
        self.p = np.array(camera["position"], float)
        self.focal = camera["focal_px"] * zoom
        self.centre = np.array(camera["center"]) * zoom
        self.image = np.full((size[1], size[0], 3), 70, np.uint8)

    def depth(self, points):
        return (np.asarray(points, float) - self.p) @ self.r[2]

    def fill(self, points, rgb):
        at = (np.asarray(points) - self.p) @ self.r.T
        if at[:, 2].min() < 0.3:
            return
        # pixel i covers [i, i+1) in the plan, and is centred on i in OpenCV
        uv = (at[:, :2] / at[:, 2:]) * self.focal + (self.centre - 0.5)
        cv2.fillConvexPoly(self.image, np.round(uv * (1 << SHIFT)).astype(np.int32), colour(rgb), cv2.LINE_AA, SHIFT)


def disc(centre, across, up, w, h, n=12):
    a = np.arange(n)[:, None] * 2 * np.pi / n
    return centre + across * (w * np.cos(a)) + up * (h * np.sin(a))


def person(stage, seat, rng, face):
    """A seated person from the waist up, seen from the camera's side."""
    foot = np.array(seat["position"], float)
    up = np.array([0, 0, 1.0])
    across = np.array([face[1], -face[0], 0.0]) * -1
    tall = rng.normal(1.0, 0.03)
    seat_h = 0.43
    hip, shoulder, chin, top = seat_h, seat_h + 0.56 * tall, seat_h + 0.63 * tall, seat_h + 0.87 * tall
    w = rng.normal(0.21, 0.015)
    cloth = CLOTHES[rng.integers(len(CLOTHES))]
    legs = CLOTHES[rng.integers(len(CLOTHES))]
    skin, hair = SKIN[rng.integers(len(SKIN))], HAIR[rng.integers(len(HAIR))]
    knee = foot + face * 0.25
    stage.fill([knee - across * 0.17, knee + across * 0.17, knee + across * 0.17 + up * 0.5, knee - across * 0.17 + up * 0.5], legs)
    stage.fill([foot - across * w + up * hip, foot + across * w + up * hip,
                foot + across * w * 1.05 + up * (shoulder - 0.08), foot + across * 0.1 + up * shoulder,
                foot - across * 0.1 + up * shoulder, foot - across * w * 1.05 + up * (shoulder - 0.08)], cloth)
    head = foot + up * ((chin + top) / 2)
    stage.fill([foot - across * 0.05 + up * (shoulder - 0.02), foot + across * 0.05 + up * (shoulder - 0.02),
                foot + across * 0.05 + up * chin, foot - across * 0.05 + up * chin], skin)
    stage.fill(disc(head + up * 0.012, across, up, 0.085, (top - chin) / 2 + 0.012), hair)
    stage.fill(disc(head - up * 0.025, across, up, 0.07, (top - chin) / 2 - 0.03), skin)
    return skin


def off(card, rng, shift, roll):
    """The card as a hand holds it: shifted and rolled in its own plane, a little tilted."""
    c = np.array(card, float)
    mid = c.mean(0)
    x = (c[1] - c[0] + c[2] - c[3]) / 2
    y = (c[3] - c[0] + c[2] - c[1]) / 2
    ux, uy = x / np.linalg.norm(x), y / np.linalg.norm(y)
    d = np.clip(rng.normal(0, 1, 3), -2, 2)
    a = np.radians(roll) * d[2]
    ca, sa = np.cos(a), np.sin(a)
    out = []
    for q in c - mid:
        p, r = q @ ux, q @ uy
        out.append(mid + ux * (p * ca - r * sa + shift * d[0]) + uy * (p * sa + r * ca + shift * d[1]))
    return np.array(out)


def bench(stage, seat):
    """The piece of riser, footboard and bench under one seat."""
    foot = np.array(seat["position"], float)
    to = stage.p - foot
    to[2] = 0
    to /= np.linalg.norm(to)
    card = seat.get("card")
    if card:  # the row runs the way the card does
        x = np.array(card[1], float) - np.array(card[0], float)
        to = np.array([x[1], -x[0], 0.0])
        to /= np.linalg.norm(to)
        if to @ (stage.p - foot) < 0:
            to = -to
    along = np.array([-to[1], to[0], 0.0]) * 0.26
    up = np.array([0, 0, 1.0])
    a, b = foot - along, foot + along
    stage.fill([a + to * 0.3 - up * 0.25, b + to * 0.3 - up * 0.25, b + to * 0.3, a + to * 0.3], (52, 52, 54))
    stage.fill([a + to * 0.3, b + to * 0.3, b - to * 0.3, a - to * 0.3], (104, 100, 94))
    stage.fill([a + up * 0.38, b + up * 0.38, b + up * 0.43, a + up * 0.43], (140, 112, 80))


def draw(job):
    with open(job["plan"]) as f:
        plan = json.load(f)
    cam = plan["camera"] if not job.get("mark") else plan["marks"][job["mark"]]["camera"]
    zoom = job["width"] / plan["picture"][0] if job.get("width") else 1.0
    size = [round(plan["picture"][0] * zoom), round(plan["picture"][1] * zoom)]
    stage = Stage(cam, size, zoom)
    rng = np.random.default_rng(job.get("seed", 1))
    colours = plan["cues"][job.get("cue", 0)]["colours"]
    palette = [tuple(int(p["hex"][i:i + 2], 16) for i in (1, 3, 5)) for p in plan["palette"]]
    seats = plan["seats"]
    shift, roll = job.get("off", 0.05), job.get("roll", 8.0)
    # the floor and the back wall stay grey; then seat by seat from far to near
    depth = stage.depth([s["position"] for s in seats])
    gone = rng.random(len(seats)) < job.get("empty", 0)
    wrong = rng.random(len(seats)) < job.get("wrong", 0)
    shown = [c for c in sorted(set(colours)) if c >= 0]
    for what in sorted(range(len(seats)), key=lambda i: -depth[i]):
        s = seats[what]
        if s["use"] != "dropped":
            bench(stage, s)
        if s["use"] not in ("card", "person"):
            continue
        if gone[what]:
            continue
        card = np.array(s["card"], float) if s.get("card") else None
        if card is not None:
            x = card[1] - card[0]
            face = -np.array([-x[1], x[0], 0.0])
        else:
            face = stage.p - np.array(s["position"], float)
            face[2] = 0
        face /= np.linalg.norm(face)
        if card is not None and face @ (stage.p - card.mean(0)) < 0:
            face = -face
        skin = person(stage, s, rng, face)
        c = colours[what]
        if card is None or c < 0 or s["use"] != "card":
            continue
        if wrong[what] and len(shown) > 1:
            c = [k for k in shown if k != c][0]
        quad = off(card, rng, shift, roll)
        shade = rng.normal(1.0, 0.03)
        stage.fill(quad, np.clip(np.array(palette[c]) * shade, 0, 255))
        for at in ((quad[0] + quad[3]) / 2, (quad[1] + quad[2]) / 2):
            ux = (quad[1] - quad[0]) / np.linalg.norm(quad[1] - quad[0])
            uy = (quad[3] - quad[0]) / np.linalg.norm(quad[3] - quad[0])
            stage.fill([at - ux * 0.02 - uy * 0.04, at + ux * 0.02 - uy * 0.04, at + ux * 0.02 + uy * 0.04, at - ux * 0.02 + uy * 0.04], skin)
    image = cv2.GaussianBlur(stage.image, (0, 0), 0.6)
    noise = np.empty(image.shape, np.int16)
    cv2.setRNGSeed(job.get("seed", 1))
    cv2.randn(noise, 0, 3)
    image = cv2.add(image, noise, dtype=cv2.CV_8U)
    cv2.imwrite(job["picture"], image, [cv2.IMWRITE_PNG_COMPRESSION, 1])


def main():
    for line in sys.stdin:
        if line.strip():
            draw(json.loads(line))


if __name__ == "__main__":
    main()
