"""Solves the problems of several cues with HiGHS, a solver of linear and integer programs, by way of
scipy.optimize (Debian package python3-scipy), as an outside judge and yardstick.

    python3 highs_peer.py < problems

Each problem is a line of JSON, each answer a line.

{"stock": [...], "cost": [cue][seat][colour]}: what each seat shows at each cue, where a person needs
one sheet of each colour that they ever show; stock -1 is unlimited. Answer: the least cost, the
least of the linear program, the seconds that either took. With "relaxed": true only the
linear program is solved, and the first figure repeats the second.

{"sequence": [...]}: one person's colours, -1 = none. The cards with two sides that show them.
Answer: the fewest cards, with these the fewest changes of card, and the seconds.
"""
import json
import sys
import time

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array


class Rows:
    """A matrix of constraints, row by row."""

    def __init__(self):
        self.row, self.column, self.value, self.low, self.high = [], [], [], [], []

    def add(self, terms, low, high):
        n = len(self.low)
        for column, value in terms:
            self.row.append(n)
            self.column.append(column)
            self.value.append(value)
        self.low.append(low)
        self.high.append(high)

    def constraint(self, columns):
        a = coo_array((self.value, (self.row, self.column)), shape=(len(self.low), columns))
        return LinearConstraint(a.tocsc(), self.low, self.high)


def solve(cost, rows, whole):
    begin = time.perf_counter()
    got = milp(cost, integrality=whole, bounds=Bounds(0, 1), constraints=rows.constraint(len(cost)),
               options={"mip_rel_gap": 0})
    took = time.perf_counter() - begin
    if got.status != 0:
        raise SystemExit(got.message)
    return got, took


def colours(stock, cost, relaxed):
    cues, seats, k = len(cost), len(cost[0]), len(stock)
    shows = lambda q, s, c: (q * seats + s) * k + c
    holds = lambda s, c: cues * seats * k + s * k + c
    obj = np.concatenate([np.array(cost, float).ravel(), np.zeros(seats * k)])
    rows = Rows()
    for q in range(cues):
        for s in range(seats):
            rows.add([(shows(q, s, c), 1) for c in range(k)], 1, 1)
            for c in range(k):
                rows.add([(shows(q, s, c), 1), (holds(s, c), -1)], -np.inf, 0)
    for c in range(k):
        if stock[c] >= 0:
            rows.add([(holds(s, c), 1) for s in range(seats)], 0, stock[c])
    whole = np.concatenate([np.zeros(cues * seats * k), np.ones(seats * k)])
    linear, first = solve(obj, rows, np.zeros(len(obj)))
    if relaxed:
        return f"{linear.fun:.0f} {linear.fun:.0f} {first:.6f} {first:.6f}"
    least, second = solve(obj, rows, whole)
    return f"{least.fun:.0f} {linear.fun:.0f} {second:.6f} {first:.6f}"


def kit(sequence):
    shown = [c for c in sequence if c >= 0]
    own = sorted(set(shown))
    if not own:
        return "0 0 0"
    kinds = [(a, b) for i, a in enumerate(own) for b in own[i:]]
    n, cues = len(kinds), len(shown)
    has = lambda k: k
    hand = lambda q, k: n + q * n + k
    change = lambda q: n + cues * n + q - 1
    # A card fewer is worth more than all changes.
    obj = np.concatenate([np.full(n, cues), np.zeros(cues * n), np.ones(cues - 1)])
    rows = Rows()
    for q, c in enumerate(shown):
        rows.add([(hand(q, k), 1) for k in range(n) if c in kinds[k]], 1, 1)
        for k in range(n):
            if c not in kinds[k]:
                rows.add([(hand(q, k), 1)], 0, 0)
            rows.add([(hand(q, k), 1), (has(k), -1)], -np.inf, 0)
            if q > 0:
                rows.add([(hand(q, k), 1), (hand(q - 1, k), -1), (change(q), -1)], -np.inf, 0)
    got, took = solve(obj, rows, np.ones(len(obj)))
    total = round(got.fun)
    return f"{total // cues} {total % cues} {took:.6f}"


for line in sys.stdin:
    p = json.loads(line)
    if "sequence" in p:
        print(kit(p["sequence"]))
    else:
        print(colours(p["stock"], p["cost"], p.get("relaxed", False)))
