#!/usr/bin/python3
"""Teaches the planner's own readers what a scene-text reader makes of letters in seats.

    go test ./mosaic/lettering -run TestLearn -learn DIR
    testdata/reader/learn.py read DIR
    testdata/reader/learn.py train DIR[,DIR...] mosaic/legibility/line.f32
    testdata/reader/learn.py small DIR[,DIR...] mosaic/legibility/reader.f32

DIR holds random lines on random stands: the cards and people of every seat as they turned out in the picture, what
people wear, and what the planner's reader looks at in each letter. "read" paints them and has them read by
scene/read.mjs, four times each: as a map of ground and ink, which no crowd hides, and as every pixel lies between the
two colours, crowd and all; each with two blurs. The picture as filmed is never read here: it is the judge's. Every
letter is then labelled with what was read in its place: a letter, right or wrong, nothing, or more than one. "train"
fits a network with two hidden layers to foretell those shares; "small" one with a single hidden layer, from the
letter's own window alone. One line in ten is kept back to say how well. Needs python3-opencv and what scene/read.mjs
needs.
"""
import collections
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
MORE = NOTHING + 1  # one letter was read as two
CLASSES = MORE + 1
HIDDEN, SMALL = (192, 64), (64,)
WINDOW, TRAITS = 18 * 16, 22  # of the samples: the letter's own window first, numbers about the line last
CARD = 12.0  # pixels a card is painted wide
SHIFT = 4
BLURS, MARGIN, HIGH = (0.6, 0.9), 0.3, 48  # in card widths, heights of the text, pixels
SHARES = (0.15, 0.35) * 2  # what a reading counts, as a map and with the crowd
BATCH = 200
SCENE = os.path.join(os.path.dirname(os.path.abspath(__file__)), "scene", "read.mjs")


def load(folder):
    with open(os.path.join(folder, "index.json")) as f:
        return json.load(f)


def paint(line, place, states, quads, bodies, rng):
    k = CARD / place["card_px"]
    left, top = quads[:, :, 0].min() - 20, quads[:, :, 1].min() - 40
    wide, high = quads[:, :, 0].max() + 20 - left, quads[:, :, 1].max() + 40 - top
    image = np.full((int(high * k), int(wide * k), 3), 70, np.uint8)
    colours = [tuple(read.rgb(line[c])[::-1]) for c in ("ground", "ink")]
    worn, bodies = [[tuple(read.rgb(c)[::-1]) for c in some] for some in (line["worn"], bodies)]

    def fill(points, colour):
        q = np.round(((np.asarray(points) - (left, top)) * k - 0.5) * (1 << SHIFT)).astype(np.int32)
        cv2.fillConvexPoly(image, q, colour, cv2.LINE_AA, SHIFT)

    for seat in place["order"]:
        if states[seat] < 0:
            continue
        body, head = place["people"][seat]
        wear, skin = worn[rng.integers(len(worn))], bodies[rng.integers(len(bodies))]
        for part in body:
            fill(part, wear)
        for part in head:
            fill(part, skin)
        fill(quads[seat], colours[states[seat]])
    return image, (left, top), k


def develop(image, line, quads, inked, origin, k):
    """What the teacher reads: the line as a map of ground and ink, and as it lies between the two colours with the crowd."""
    ground, ink = [np.array(read.rgb(line[c])[::-1], np.float32) for c in ("ground", "ink")]
    near, far = read.far(image, read.rgb(line["ink"])), read.far(image, read.rgb(line["ground"]))
    is_ink = (near < read.NEAR_INK ** 2) & (near <= far)
    is_ground = (far < read.NEAR_GROUND ** 2) & ~is_ink
    weight, value = (is_ink | is_ground).astype(np.float32), is_ink.astype(np.float32)
    axis = ink - ground
    between = np.clip((image.astype(np.float32) - ground) @ axis / (axis @ axis), -0.5, 1.5)
    at = (quads - origin) * k
    x0, y0 = at[inked].min((0, 1)) if inked.any() else at.min((0, 1))
    x1, y1 = at[inked].max((0, 1)) if inked.any() else at.max((0, 1))
    a0, b0 = np.maximum(at.min((0, 1)), 0)
    a1, b1 = at.max((0, 1))
    out = []
    for blur in BLURS:
        w, v = [cv2.GaussianBlur(p, (0, 0), blur * CARD) for p in (weight, value)]
        for seen in (v / (w + 0.02), cv2.GaussianBlur(between, (0, 0), blur * CARD)):
            e = MARGIN * (y1 - y0)
            left, top, right, bottom = int(x0 - e), int(y0 - e), int(np.ceil(x1 + e)), int(np.ceil(y1 + e))
            picture = np.zeros((bottom - top, right - left), np.float32)
            xa, ya = max(left, int(a0), 0), max(top, int(b0), 0)
            xb, yb = min(right, int(np.ceil(a1)), image.shape[1]), min(bottom, int(np.ceil(b1)), image.shape[0])
            picture[ya - top:yb - top, xa - left:xb - left] = seen[ya:yb, xa:xb]
            size = max(16, round(picture.shape[1] * HIGH / picture.shape[0])), HIGH
            picture = cv2.resize(picture, size, interpolation=cv2.INTER_AREA if picture.shape[0] > HIGH else cv2.INTER_CUBIC)
            out.append(np.clip(255 * (1 - picture), 0, 255).astype(np.uint8))
    return out


def read_folder(folder):
    index = load(folder)
    states = np.fromfile(os.path.join(folder, "states.i8"), np.int8)
    quads = np.fromfile(os.path.join(folder, "quads.f32"), np.float32).reshape(-1, 4, 2)
    at, answers, rng = 0, [], np.random.default_rng(1)
    for first in range(0, len(index["lines"]), BATCH):
        with tempfile.TemporaryDirectory() as tmp:
            jobs = []
            for i, line in enumerate(index["lines"][first:first + BATCH]):
                place = index["places"][line["place"]]
                n = len(place["order"])
                image, origin, k = paint(line, place, states[at:at + n], quads[at:at + n], index["bodies"], rng)
                names = []
                for j, picture in enumerate(develop(image, line, quads[at:at + n], states[at:at + n] == 1, origin, k)):
                    names.append(os.path.join(tmp, "%d-%d.png" % (i, j)))
                    cv2.imwrite(names[-1], picture)
                jobs.append(json.dumps({"id": i, "pictures": names}))
                at += n
            done = subprocess.run(["node", SCENE], input="\n".join(jobs), capture_output=True, text=True, check=True)
            for line in done.stdout.splitlines():
                answers.append([read.plain(r["text"]) for r in json.loads(line)["readings"]])
        print(len(answers), "of", len(index["lines"]), flush=True)
    with open(os.path.join(folder, "readings.json"), "w") as f:
        json.dump(answers, f)


def align(text, got):
    """What was read at each letter of the text, and what was read beside it."""
    out, extra = [NOTHING] * len(text), []
    for op, a0, a1, b0, b1 in difflib.SequenceMatcher(None, text, got, False).get_opcodes():
        if op == "insert":
            extra += [(a0, c) for c in got[b0:b1]]
            continue
        for k in range(min(a1 - a0, b1 - b0)):
            c = got[b0 + k]
            out[a0 + k] = LABELS.find(c) if c in LABELS else NOTHING
        if op == "replace" and b1 - b0 > a1 - a0:
            out[a1 - 1] = MORE
    return out, extra


def labels(text, got, likely):
    """Labels of a reading: a letter that came in between is laid to the neighbour that it resembles more."""
    if len(got) == len(text):
        return [LABELS.find(c) if c in LABELS else NOTHING for c in got]
    out, extra = align(text, got)
    for at, c in extra:
        sides = [i for i in (at - 1, at) if 0 <= i < len(text)]
        out[max(sides, key=lambda i: likely[text[i], c])] = MORE
    return out


def confusions(pairs):
    """How often a letter was read as another where nothing came in or went missing."""
    likely = collections.Counter()
    for text, got in pairs:
        if len(text) == len(got):
            likely.update(zip(text, got))
    return likely


def softmax(z):
    p = np.exp(z - z.max(1, keepdims=True))
    return p / p.sum(1, keepdims=True)


def forward(w, x):
    for i in range(0, len(w) - 2, 2):
        x = np.maximum(x @ w[i] + w[i + 1], 0)
    return softmax(x @ w[-2] + w[-1])


def gradient(w, a, y, drop, rng):
    """Of the cross entropy of one batch, with hidden units dropped at random."""
    through, masks = [a], []
    for i, share in zip(range(0, len(w) - 2, 2), drop):
        h = np.maximum(through[-1] @ w[i] + w[i + 1], 0)
        masks.append((h > 0) * (rng.random(h.shape, np.float32) > share).astype(np.float32) / (1 - share))
        through.append(h * masks[-1])
    back = (softmax(through[-1] @ w[-2] + w[-1]) - y) / len(y)
    g = [None] * len(w)
    for i in range(len(w) - 2, -1, -2):
        g[i], g[i + 1] = through[i // 2].T @ back, back.sum(0)
        if i:
            back = (back @ w[i].T) * masks[i // 2 - 1]
    return g


def train(x, y, hidden, seed=1, epochs=24, rate=1.5e-3, batch=256, drop=(0.25, 0.1), noise=0.12, decay=1e-4):
    rng = np.random.default_rng(seed)
    sizes = (x.shape[1],) + hidden + (y.shape[1],)
    w = []
    for a, b in zip(sizes, sizes[1:]):
        w += [rng.normal(0, np.sqrt(2 / a), (a, b)).astype(np.float32), np.zeros(b, np.float32)]
    m, v, t = [0 * a for a in w], [0 * a for a in w], 0
    for epoch in range(epochs):
        order = rng.permutation(len(x))
        step = rate * 0.5 * (1 + np.cos(np.pi * epoch / epochs))
        for i in range(0, len(x), batch):
            k = order[i:i + batch]
            a = x[k] + rng.standard_normal((len(k), x.shape[1]), np.float32) * noise
            g = gradient(w, a, y[k], drop, rng)
            t += 1
            for j in range(len(w)):
                d = g[j] + (decay * w[j] if w[j].ndim == 2 else 0)
                m[j] = 0.9 * m[j] + 0.1 * d
                v[j] = 0.999 * v[j] + 0.001 * d * d
                w[j] -= step * (m[j] / (1 - 0.9 ** t)) / (np.sqrt(v[j] / (1 - 0.999 ** t)) + 1e-8)
    return [a.astype(np.float32) for a in w]


def examples(folders):
    """Samples (planned and shown), shares of labels, the line of each letter, its truth and whether each line was read."""
    xs, ys, lines, truth, read_ok, size = [], [], [], [], [], []
    n = 0
    for folder in folders:
        index = load(folder)
        with open(os.path.join(folder, "readings.json")) as f:
            answers = json.load(f)
        texts = [read.plain(e["text"]) for e in index["lines"]]
        likely = confusions([(t, g) for t, got in zip(texts, answers) for g in got])
        xs.append(np.fromfile(os.path.join(folder, "samples.f32"), np.float32).reshape(-1, 2, index["inputs"]))
        for e, text, got in zip(index["lines"], texts, answers):
            y = np.zeros((len(text), CLASSES), np.float32)
            for g, share in zip(got, SHARES):
                for k, label in enumerate(labels(text, g, likely)):
                    y[k, label] += share
            ys.append(y)
            lines += [n] * len(text)
            truth += [LABELS.index(c) for c in text]
            read_ok.append(sum(g == text for g in got) >= 3)
            size.append((e["seats"], e["rows"]))
            n += 1
    return np.concatenate(xs), np.concatenate(ys), np.array(lines), np.array(truth), np.array(read_ok), np.array(size)


def report(w, x, y, line, truth, ok, size):
    for k, name in enumerate(("planned", "shown")):
        p = forward(w, x[:, k])
        loss = -(y * np.log(p + 1e-9)).sum(1).mean()
        right = p[np.arange(len(p)), truth]
        was = y[np.arange(len(p)), truth]
        print("%s: loss %.4f, label foretold %.3f" % (name, loss, (p.argmax(1) == y.argmax(1)).mean()))
        ids = np.unique(line)
        chance = np.array([np.log(right[line == i] + 1e-9).sum() for i in ids])
        got = ok[ids]
        order = np.argsort(chance)
        for part in np.array_split(order, 8):
            print("  line foretold %.3f  read %.3f" % (np.exp(chance[part]).mean(), got[part].mean()))
        rank = np.argsort(np.argsort(chance))
        a, b = rank[got], rank[~got]
        print("  ordered right: %.3f" % ((a.sum() - len(a) * (len(a) - 1) / 2) / (len(a) * len(b))))


def main():
    if sys.argv[1] == "read":
        read_folder(sys.argv[2])
        return
    x, y, line, truth, ok, size = examples(sys.argv[2].split(","))
    print("lines %d, read %.3f; letters %d, right %.3f, nothing %.3f, more %.3f" % (
        len(ok), ok.mean(), len(y), y[np.arange(len(y)), truth].mean(), y[:, NOTHING].mean(), y[:, MORE].mean()))
    keep = line % 10 == 0
    hidden = HIDDEN
    if sys.argv[1] == "small":
        x = np.concatenate([x[:, :, :WINDOW], x[:, :, -TRAITS:][:, :, :2]], 2)
        y = np.concatenate([y[:, :NOTHING], y[:, NOTHING:].sum(1, keepdims=True)], 1)
        hidden = SMALL
    w = train(x[~keep].reshape(-1, x.shape[-1]), np.repeat(y[~keep], 2, 0), hidden)
    report(w, x[keep], y[keep], line[keep], truth[keep], ok, size)
    with open(sys.argv[3], "wb") as f:
        for a in w:
            f.write(a.astype("<f4").tobytes())


if __name__ == "__main__":
    main()
