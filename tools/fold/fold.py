#!/usr/bin/python3
"""Folds every bend of a book by its exported files alone.

    fold.py [--spoil MM] BOOK...

A BOOK is a folder as 'rodwork book' writes it. From it are read the strip as
DXF (its outline and its kerfs), the list of bends and the list of kerfs, and
nothing else. The strip is folded as a chain: ribs stay straight, each kerf turns
on its neutral line, by the arc's own formula. Then a rule is laid to it: width,
height and end of the outside against the circles and flats that were asked for,
the radius at every rib, the closure of a ring, and the rail inside.

It shares no code with the program. It fails if anything is off by more than
0.05 mm. With --spoil every neutral line is taken that much deeper than the list
has it: a check of this check.
"""
import cmath
import csv
import glob
import math
import os
import sys

import ezdxf

LIMIT = 0.05  # mm


def number(text):
    """A cell's number; 0 where it is empty."""
    return float(text.replace(",", "")) if text else 0.0


def rows(path):
    """The rows of a list, by the heads of its columns without their units."""
    with open(path, encoding="utf-8-sig", newline="") as f:
        table = list(csv.reader(f))
    heads = [h.rsplit(" (", 1)[0] if h.endswith(")") else h for h in table[0]]
    return [dict(zip(heads, r)) for r in table[1:]]


def strip(path):
    """Length and width of a strip, and the places of its kerfs, from its DXF."""
    xs, ys, kerfs = [], [], set()
    for e in ezdxf.readfile(path).modelspace():
        layer = e.dxf.layer.lower()
        if layer == "outline of part" and e.dxftype() in ("LWPOLYLINE", "POLYLINE"):
            pts = e.get_points("xy") if e.dxftype() == "LWPOLYLINE" else [v.dxf.location for v in e.vertices]
            if not xs or max(p[0] for p in pts) - min(p[0] for p in pts) > max(xs) - min(xs):
                xs, ys = [p[0] for p in pts], [p[1] for p in pts]
        elif layer == "kerf":
            kerfs.add(round(e.dxf.start.x, 6))
    return max(xs) - min(xs), max(ys) - min(ys), sorted(kerfs)


class Walk:
    """A place on face A of a strip and the way it looks; inside is on the right."""

    def __init__(self):
        self.at, self.way = 0j, 1 + 0j

    def ahead(self, length):
        self.at += self.way * length

    def arc(self, deep, length, turn):
        """Turns left by turn, along an arc of the length that lies deep under A."""
        p = self.at - 1j * self.way * deep
        if turn:
            p += self.way * (cmath.exp(1j * turn) - 1) / (1j * turn) * length
        self.way *= cmath.exp(1j * turn)
        self.at = p + 1j * self.way * deep

    def under(self, deep):
        return self.at - 1j * self.way * deep


class Book:
    def __init__(self, folder, spoil):
        self.folder, self.spoil, self.bad, self.worst = folder, spoil, 0, {}
        self.turned, self.closing = 0.0, Walk()  # of all strips, one behind the other

    def say(self, what, off):
        self.worst[what] = max(self.worst.get(what, 0.0), abs(off))

    def check(self):
        lists = os.path.join(self.folder, "lists")
        if not os.path.exists(os.path.join(lists, "bends.csv")):
            return True
        bends, kerfs = rows(os.path.join(lists, "bends.csv")), []
        if os.path.exists(os.path.join(lists, "kerfs.csv")):
            kerfs = rows(os.path.join(lists, "kerfs.csv"))
        parts = []
        for b in bends:
            if b["no."] not in parts:
                parts.append(b["no."])
        for no in parts:
            self.part(no, [b for b in bends if b["no."] == no], [k for k in kerfs if k["no."] == no])
        if abs(abs(self.turned) - 2 * math.pi) < 1e-6:
            self.say("closure of the ring", abs(self.closing.at))
        for what, off in self.worst.items():
            good = off <= LIMIT
            self.bad += not good
            print("  %-34s %.4f mm%s" % (what, off, "" if good else "  TOO FAR"))
        return self.bad == 0

    def part(self, no, bends, kerfs):
        found = glob.glob(os.path.join(self.folder, "templates", "%02d-strip-*.dxf" % int(no)))
        if len(found) != 1:
            sys.exit("%s: no single DXF of strip %s" % (self.folder, no))
        length, _, drawn = strip(found[0])
        listed = sorted(number(k["centre, from the datum end"]) for k in kerfs)
        if len(drawn) != len(listed):
            sys.exit("%s: %d kerfs are drawn, %d listed" % (self.folder, len(drawn), len(listed)))
        for a, b in zip(drawn, listed):
            self.say("kerfs drawn against listed", a - b)
        real, meant = Walk(), Walk()
        box = {True: [], False: []}
        done = 0.0  # of the strip, folded
        for b in bends:
            start, flat = number(b["starts at"]), number(b["flat stretch"])
            real_done = self.bend(b, [x for x in drawn if start - 1e-6 <= x <= start + flat + 1e-6], real, meant, done, box)
            done = start + flat
            real.ahead(done - real_done)
            self.say("place where a bend ends", abs(real.at - meant.at))
            self.say("its direction, over 500 mm", 500 * abs(real.way - meant.way))
        for w in (real, meant):
            w.ahead(length - done)
        for folded, w in ((True, real), (False, meant)):
            box[folded].append(w.at)
        size = {k: (max(p.real for p in v) - min(p.real for p in v), max(p.imag for p in v) - min(p.imag for p in v)) for k, v in box.items()}
        self.say("outside width", size[True][0] - size[False][0])
        self.say("outside height", size[True][1] - size[False][1])
        self.closing.at += self.closing.way * real.at
        self.closing.way *= real.way
        self.turned += sum(math.radians(number(b["turn"])) * (1 if b["turns"] == "left" else -1) for b in bends)

    def bend(self, b, kerfs, real, meant, done, box):
        """Folds one bend; returns how much of the strip is behind it."""
        start = number(b["starts at"])
        left = b["turns"] == "left"
        sign = 1 if left else -1
        turn, thick, radius = math.radians(number(b["turn"])), number(b["thickness"]), number(b["radius, outside"])
        own = radius - thick if left else radius  # of face A
        for w in (real, meant):
            w.ahead(start - done)
            box[w is real].append(w.at)
        centre = meant.at + sign * 1j * meant.way * own
        convex = thick if left else 0.0
        inner = 0.0 if left else thick
        rail = number(b["rail radius"])
        at = start
        box[True].append(real.under(convex))
        if kerfs:
            w, n = number(b["kerf"]), len(kerfs)
            deep = number(b["neutral line, from the uncut face"]) + self.spoil
            if b["kerfs in face"] == "A":
                deep = thick - deep
            for i, x in enumerate(kerfs):
                rib = x - w / 2 - at
                if i > 0:
                    real.ahead(rib / 2)
                    box[True].append(real.under(convex))
                    self.say("radius at the ribs' middles", abs(real.under(convex) - centre) - radius)
                    self.say("rail at the ribs' middles", abs(real.under(inner) - centre) - rail)
                    real.ahead(rib / 2)
                else:
                    real.ahead(rib)
                for half in range(2):
                    edge = real.under(inner)
                    self.say("ribs' edges into the rail", max(0.0, rail - abs(edge - centre)))
                    box[True].append(real.under(convex))
                    if half == 0:
                        real.arc(deep, w / 2, sign * turn / n / 2)
                        if (b["kerfs in face"] == "B") != left:  # skin, not a slot
                            box[True].append(real.under(convex))
                        real.arc(deep, w / 2, sign * turn / n / 2)
                at = x + w / 2
        else:
            plies, flat = number(b["plies"]), number(b["flat stretch"])
            self.say("flat of a bend without kerfs", flat - turn * (radius - thick / 2))
            real.arc(thick / 2, flat, sign * turn)
            at = start + flat
            if plies > 1:
                keep = 1 - 1 / plies**2
                former, angle = number(b["former radius"]), math.radians(number(b["former angle"]))
                self.say("former's radius, let go", (former + thick / 2) / keep - (radius - thick / 2))
                self.say("former's angle, let go, over 500 mm", 500 * (angle * keep - turn))
        steps = 2000
        for i in range(steps + 1):
            box[False].append(centre + (meant.under(convex) - centre) * cmath.exp(1j * sign * turn * i / steps))
            if not kerfs:
                box[True].append(box[False][-1])
        meant.at = centre + (meant.at - centre) * cmath.exp(1j * sign * turn)
        meant.way *= cmath.exp(1j * sign * turn)
        box[False].append(meant.at)
        box[True].append(real.at)
        return at


def main():
    args, spoil = sys.argv[1:], 0.0
    if args[:1] == ["--spoil"]:
        spoil, args = float(args[1]), args[2:]
    good = True
    for folder in args:
        print(folder)
        good = Book(folder, spoil).check() and good
    sys.exit(0 if good else 1)


if __name__ == "__main__":
    main()
