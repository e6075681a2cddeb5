#!/usr/bin/python3
"""Teaches the planner's own small reader what the outside reader makes of letters in seats.

    go test ./mosaic/lettering -run TestLearn -learn DIR
    testdata/reader/learn.py DIR mosaic/legibility/reader.f32

DIR holds lines of random letters as predicted pictures (ink white, 50 pixels high)
and the samples of each letter. Every line is read by the OCR program with the settings of
read.py; each letter is then labelled with what was read in its place, right or
wrong. A network with one hidden layer learns to foretell that from the samples. One line in
ten is kept back to say how well. Needs python3-opencv and tesseract-ocr.
"""
import difflib
import json
import os
import subprocess
import sys
import tempfile

import cv2
import numpy as np

import read

LABELS = "ABCDEFGHJKLMNPQRSTUVWXYZ023456789" "1"  # O counts as 0 and I as 1
NOTHING = len(LABELS)  # no letter was read in its place
HIDDEN = 64
INPUTS = 18 * 16 + 2


def develop(path):
    grey = cv2.imread(path, cv2.IMREAD_GRAYSCALE)
    cut, _ = cv2.threshold(grey, 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
    grey = np.clip(128 - read.STRETCH * (grey.astype(np.float32) - cut), 0, 255).astype(np.uint8)
    b = read.BORDER
    return cv2.copyMakeBorder(grey, b, b, b, b, cv2.BORDER_CONSTANT, value=255)


def readings(folder, index):
    with tempfile.TemporaryDirectory() as tmp:
        names = []
        for i, line in enumerate(index):
            names.append(os.path.join(tmp, "%06d.png" % i))
            cv2.imwrite(names[-1], develop(os.path.join(folder, line["picture"])))
        return read.ocr(names, 7)


def labels(text, got):
    """What was read at each letter of the text."""
    if len(got) == len(text):
        return [LABELS.find(c) if c in LABELS else NOTHING for c in got]
    out = [NOTHING] * len(text)
    for block in difflib.SequenceMatcher(None, text, got, False).get_matching_blocks():
        for k in range(block.size):
            out[block.a + k] = LABELS.index(text[block.a + k])
    return out


def train(x, y, seed=1, epochs=40, rate=2e-3, batch=256):
    rng = np.random.default_rng(seed)
    shapes = [(INPUTS, HIDDEN), (HIDDEN,), (HIDDEN, NOTHING + 1), (NOTHING + 1,)]
    w = [rng.normal(0, np.sqrt(2 / s[0]), s).astype(np.float32) if len(s) == 2 else np.zeros(s, np.float32) for s in shapes]
    m, v, t = [0 * a for a in w], [0 * a for a in w], 0
    for epoch in range(epochs):
        order = rng.permutation(len(x))
        step = rate * 0.5 * (1 + np.cos(np.pi * epoch / epochs))
        for i in range(0, len(x), batch):
            k = order[i:i + batch]
            a = x[k] + rng.normal(0, 0.15, x[k].shape).astype(np.float32)
            h = np.maximum(a @ w[0] + w[1], 0)
            drop = (rng.random(h.shape) > 0.2).astype(np.float32) / 0.8
            h *= drop
            z = h @ w[2] + w[3]
            z -= z.max(1, keepdims=True)
            p = np.exp(z)
            p /= p.sum(1, keepdims=True)
            p[np.arange(len(k)), y[k]] -= 1
            p /= len(k)
            back = (p @ w[2].T) * (h > 0) * drop
            g = [a.T @ back, back.sum(0), h.T @ p, p.sum(0)]
            t += 1
            for j in range(4):
                d = g[j] + (2e-4 * w[j] if w[j].ndim == 2 else 0)
                m[j] = 0.9 * m[j] + 0.1 * d
                v[j] = 0.999 * v[j] + 0.001 * d * d
                w[j] -= step * (m[j] / (1 - 0.9 ** t)) / (np.sqrt(v[j] / (1 - 0.999 ** t)) + 1e-8)
    return [a.astype(np.float32) for a in w]


def forward(w, x):
    z = np.maximum(x @ w[0] + w[1], 0) @ w[2] + w[3]
    z -= z.max(1, keepdims=True)
    p = np.exp(z)
    return p / p.sum(1, keepdims=True)


def main():
    folders, out = sys.argv[1].split(","), sys.argv[2]
    xs, ys, line, truth = [], [], [], []
    for folder in folders:
        with open(os.path.join(folder, "index.json")) as f:
            index = json.load(f)
        cache = os.path.join(folder, "readings.json")
        if os.path.exists(cache):
            with open(cache) as f:
                got = json.load(f)
        else:
            got = readings(folder, index)
            with open(cache, "w") as f:
                json.dump(got, f)
        xs.append(np.fromfile(os.path.join(folder, "windows.f32"), np.float32).reshape(-1, INPUTS))
        for i, (entry, text) in enumerate(zip(index, got)):
            t = read.plain(entry["text"])
            ls = labels(t, read.plain(text.replace(" ", "")))
            ys += ls
            truth += [LABELS.index(c) for c in t]
            line += [i] * len(ls)
    x, y, line, truth = np.concatenate(xs), np.array(ys), np.array(line), np.array(truth)
    print("letters %d, read right %.3f, nothing %.3f" % (len(y), (y == truth).mean(), (y == NOTHING).mean()))
    keep = line % 10 == 0
    w = train(x[~keep], y[~keep])
    p = forward(w, x[keep])
    right = p[np.arange(keep.sum()), truth[keep]]
    was = y[keep] == truth[keep]
    print("kept back: label foretold %.3f" % (p.argmax(1) == y[keep]).mean())
    order = np.argsort(right)
    for part in np.array_split(order, 10):
        print("  foretold %.3f  read %.3f" % (right[part].mean(), was[part].mean()))
    with open(out, "wb") as f:
        for a in w:
            f.write(a.astype("<f4").tobytes())


if __name__ == "__main__":
    main()
