#!/usr/bin/python3
"""Makes the reference pictures and tables of this folder (see README.md).

Needs Debian's python3-opencv (4.6.0), python3-pil (9.4.0) and imagemagick (6.9.11).
"""
import glob
import subprocess
import cv2
import numpy as np
from PIL import Image

WIDTH, HEIGHT = 97, 61
GRIDS = [(1, 1), (13, 7), (20, 11), (48, 30)]


def picture():
    """Noise over slopes: no two neighbouring pixels are alike."""
    noise = np.random.RandomState(7).randint(0, 256, (HEIGHT, WIDTH, 3))
    y, x = np.mgrid[0:HEIGHT, 0:WIDTH]
    slope = np.stack([x * 255 // (WIDTH - 1), y * 255 // (HEIGHT - 1), (x + y) * 255 // (WIDTH + HEIGHT - 2)], 2)
    return np.where((x // 8 + y // 8)[:, :, None] % 2 == 0, noise, slope).astype(np.uint8)


def linear(rgb):
    """IEC 61966-2-1."""
    v = rgb.astype(np.float64) / 255
    return np.where(v <= 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)


def area():
    Image.fromarray(picture()).save("picture.png")
    light = linear(cv2.imread("picture.png")[:, :, ::-1])
    with open("area.csv", "w") as f:
        f.write("columns,rows,x,y,r,g,b\n")
        for columns, rows in GRIDS:
            out = cv2.resize(light, (columns, rows), interpolation=cv2.INTER_AREA)
            for y in range(rows):
                for x in range(columns):
                    f.write("%d,%d,%d,%d,%.7f,%.7f,%.7f\n" % (columns, rows, x, y, *out[y, x]))


QUARTERS = [("red", (220, 30, 30)), ("green", (20, 160, 40)), ("blue", (30, 50, 200)), ("yellow", (240, 210, 40))]


def quarters(w, h):
    """Red, green over blue, yellow."""
    a = np.zeros((h, w, 3), np.uint8)
    for i, (_, rgb) in enumerate(QUARTERS):
        a[i // 2 * h // 2:(i // 2 + 1) * h // 2, i % 2 * w // 2:(i % 2 + 1) * w // 2] = rgb
    return Image.fromarray(a)


def name_at(bgr):
    return min(QUARTERS, key=lambda q: sum((int(a) - b) ** 2 for a, b in zip(bgr[::-1], q[1])))[0]


def orientations():
    """The same stored pixels under the eight orientations; OpenCV turns what it reads."""
    with open("orientation.csv", "w") as f:
        f.write("file,width,height,top_left,top_right,bottom_left,bottom_right\n")
        for o in range(1, 9):
            exif = Image.Exif()
            exif[0x0112] = o
            name = "orientation-%d.jpg" % o
            quarters(48, 32).save(name, quality=92, exif=exif)
            seen = cv2.imread(name)
            h, w = seen.shape[:2]
            at = [name_at(seen[y, x]) for y in (h // 4, 3 * h // 4) for x in (w // 4, 3 * w // 4)]
            f.write(",".join([name, str(w), str(h)] + at) + "\n")


def formats():
    """The same picture in every kind of file that is read."""
    rgb = quarters(48, 32)
    rgb.save("kind.png")
    rgb.save("kind.jpg", quality=92)
    rgb.save("kind-progressive.jpg", quality=92, progressive=True)
    rgb.save("kind.gif")
    rgb.save("kind.webp", quality=92)
    rgb.save("kind-lossless.webp", lossless=True)
    rgb.save("kind.bmp")
    rgb.save("kind.tiff")
    rgb.convert("P", palette=Image.Palette.ADAPTIVE).save("kind-palette.png")
    rgb.convert("CMYK").save("kind-cmyk.jpg", quality=92)
    with open("kind.csv", "w") as f:
        f.write("file,width,height,top_left,top_right,bottom_left,bottom_right\n")
        for name in sorted(glob.glob("kind*.*")):
            if name.endswith(".csv"):
                continue
            seen = Image.open(name).convert("RGB")
            w, h = seen.size
            at = ["#%02x%02x%02x" % seen.getpixel((x, y)) for y in (h // 4, 3 * h // 4) for x in (w // 4, 3 * w // 4)]
            f.write(",".join([name, str(w), str(h)] + at) + "\n")
    # Right half transparent, the colours beneath it nonsense.
    clear = rgb.convert("RGBA")
    clear.paste((255, 0, 255, 0), (24, 0, 48, 32))
    clear.save("clear.png")
    clear.save("clear.webp", quality=92)
    subprocess.run(["convert", "clear.png", "-depth", "16", "PNG64:clear-16.png"], check=True)
    subprocess.run(["convert", "clear.png", "-strip", "GIF:clear.gif"], check=True)


if __name__ == "__main__":
    area()
    orientations()
    formats()
