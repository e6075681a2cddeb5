"""Draws polygons with OpenCV and says how long it took: the peer of BenchmarkPeer.

Usage: opencv.py FILE WIDTH HEIGHT ROUNDS
FILE has a polygon a line, far ones first: r g b x y x y ... with corners in
1/256 pixel. Prints the processor time of drawing, in milliseconds a round.
"""

import sys
import time

import cv2
import numpy

path, width, height, rounds = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4])
cv2.setNumThreads(1)
polygons = []
with open(path) as lines:
    for line in lines:
        n = [int(v) for v in line.split()]
        polygons.append(((n[2], n[1], n[0]), numpy.array(n[3:], numpy.int32).reshape(-1, 2)))
picture = numpy.zeros((height, width, 3), numpy.uint8)
start = time.process_time()
for _ in range(rounds):
    for colour, corners in polygons:
        cv2.fillConvexPoly(picture, corners, colour, cv2.LINE_AA, 8)
print(1000 * (time.process_time() - start) / rounds)
