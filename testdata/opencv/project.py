#!/usr/bin/python3
"""Where OpenCV puts the corners of cards in the picture.

Reads project-input.json beside it and writes project.csv: a line a corner, with
its place in the world, which this script works out by itself from the measures of
the stands, and its place in the picture by cv2.projectPoints, which is given a
rotation made by cv2.Rodrigues from two turns about axes.

    /usr/bin/python3 testdata/opencv/project.py > testdata/opencv/project.csv

Body sizes are means of the male and the female median of anthropometry_ansur2.csv:
sitting height 0.8875 m, eyes 0.776 m over the seat; the chin as far below the eyes
as the crown is above. A card is 0.30 m before the body's axis (0.10 m overhead),
and the axis is over the middle of a seat board 0.25 m deep at the back of the run.
"""
import json
import math
import os
import sys

import cv2
import numpy as np

CROWN, EYES = 0.8875, 0.776
CHIN = EYES - (CROWN - EYES)
BOARD = 0.25


def turn_z(degrees):
    a = math.radians(degrees)
    return np.array([[math.cos(a), -math.sin(a), 0], [math.sin(a), math.cos(a), 0], [0, 0, 1]])


def seats(s):
    """Row, place, the point on the footboard and the degrees it faces."""
    for row in range(s["rows"]):
        back = row * s["run"] + s["run"] / 2
        for place in range(s["seats"]):
            along = (place - (s["seats"] - 1) / 2) * s["pitch"]
            if s["radius"]:
                # Round the centre, which is `radius` before the front edge.
                own = s["radius"] + back
                angle = math.degrees(along / own)
                centre = np.array([0, -s["radius"], 0])
                point = centre + turn_z(-angle) @ np.array([0, own, 0])
                facing = -angle
            else:
                point, facing = np.array([along, back, 0]), 0
            point = turn_z(s["facing"]) @ point + np.array([s["across"], s["away"], s["first_row"] + row * s["rise"]])
            yield row, place, point, s["facing"] + facing


def corners(point, facing, section, card, mark):
    """Top-left, top-right, bottom-right, bottom-left for who faces the front."""
    board, half = section["seat_board"], card["height"] / 2
    up = {"eyes": EYES - half, "chin": CHIN - half, "overhead": CROWN + 0.02 + half}[card["held"]] + board
    reach = 0.10 if card["held"] == "overhead" else 0.30
    axis = -(section["run"] / 2 - BOARD / 2)
    look = turn_z(facing) @ np.array([0, -1, 0])
    middle = point + look * (axis + reach) + np.array([0, 0, up])
    lean = card["tilt"]
    if card["to_mark"]:
        to = np.array(mark) - middle
        facing = math.degrees(math.atan2(to[0], -to[1]))
        lean += math.degrees(math.atan2(to[2], math.hypot(to[0], to[1])))
    w, h = card["width"] / 2, card["height"] / 2
    # The top leans away from who faces the front: a turn about the card's right side.
    a = math.radians(-lean)
    about_right = np.array([[1, 0, 0], [0, math.cos(a), -math.sin(a)], [0, math.sin(a), math.cos(a)]])
    for x, z in ((-w, h), (w, h), (w, -h), (-w, -h)):
        yield middle + turn_z(facing) @ (about_right @ np.array([x, 0, z]))


def camera(view):
    """Rotation vector, translation and matrix as OpenCV wants them."""
    position, aim = np.array(view["position"]), np.array(view["aim"])
    d = aim - position
    yaw, pitch = math.atan2(d[0], d[1]), math.atan2(d[2], math.hypot(d[0], d[1]))
    # World axes to camera axes looking along +y: x stays, y is minus z, z is y.
    base = np.array([[1.0, 0, 0], [0, 0, -1], [0, 1, 0]])
    level, _ = cv2.Rodrigues(np.array([0.0, 0, yaw]))       # turn the world back by yaw
    tip, _ = cv2.Rodrigues(np.array([-pitch, 0.0, 0]))      # then tip it by pitch, about camera x
    rotation = tip @ base @ level
    rvec, _ = cv2.Rodrigues(rotation)
    w, h = view["picture"]
    f = w / 2 / math.tan(math.radians(view["degrees"] / 2))
    return rvec, -rotation @ position, np.array([[f, 0, w / 2], [0, f, h / 2], [0, 0, 1]])


def main():
    here = os.path.dirname(os.path.abspath(__file__))
    with open(os.path.join(here, "project-input.json")) as file:
        scenes = json.load(file)["scenes"]
    print("# made by testdata/opencv/project.py with OpenCV", cv2.__version__, "(cv2.projectPoints, Debian python3-opencv)")
    print("scene,row,place,corner,x,y,z,u,v")
    for scene in scenes:
        rvec, tvec, matrix = camera(scene["view"])
        for row, place, point, facing in seats(scene["section"]):
            quad = list(corners(point, facing, scene["section"], scene["card"], scene["view"]["position"]))
            pixels, _ = cv2.projectPoints(np.array(quad), rvec, tvec, matrix, None)
            for i, (p, uv) in enumerate(zip(quad, pixels.reshape(-1, 2))):
                print(scene["name"], row, place, i, *("%.12f" % x for x in p), *("%.9f" % x for x in uv), sep=",")


if __name__ == "__main__":
    sys.exit(main())
