#!/usr/bin/env python3
"""Computes a shelf on four pins, bare and with a strip along its front edge, as a
solid, with CalculiX: see README.md."""
import json
import os
import sys

from frames import run_text

L, DEPTH, THICK, LOAD = 900.0, 350.0, 17.6, 54 * 9.80665 / 1000  # mm, N/mm
STRIP = (20.0, 30.0)  # front to back, height; flush with the top
E, NU = 10048.0, 0.25
NX = 60


def grid(strip):
    ys = [-STRIP[1] + THICK, -0.5 * (STRIP[1] - THICK), 0, THICK / 2, THICK] if strip else [0, THICK / 2, THICK]
    zs = [DEPTH * i / 14 for i in range(15)] + ([DEPTH + STRIP[0] / 2, DEPTH + STRIP[0]] if strip else [])
    xs = [L * i / NX for i in range(NX + 1)]
    return xs, ys, zs


def deck(strip):
    xs, ys, zs = grid(strip)
    def solid(j, k):  # a cell of the section
        return ys[j] >= 0 or zs[k] >= DEPTH
    ids, lines = {}, ["*NODE"]
    def node(i, j, k):
        if (i, j, k) not in ids:
            ids[(i, j, k)] = len(ids) + 1
        return ids[(i, j, k)]
    cells = []
    for i in range(NX):
        for j in range(len(ys) - 1):
            for k in range(len(zs) - 1):
                if solid(j, k):
                    cells.append([node(i, j, k), node(i + 1, j, k), node(i + 1, j + 1, k), node(i, j + 1, k),
                                  node(i, j, k + 1), node(i + 1, j, k + 1), node(i + 1, j + 1, k + 1), node(i, j + 1, k + 1)])
    for (i, j, k), n in ids.items():
        lines.append("%d,%.6f,%.6f,%.6f" % (n, xs[i], ys[j], zs[k]))
    lines.append("*ELEMENT,TYPE=C3D8I,ELSET=ALL")
    lines += ["%d,%s" % (e + 1, ",".join(map(str, c))) for e, c in enumerate(cells)]
    lines += ["*MATERIAL,NAME=M", "*ELASTIC", "%g,%g" % (E, NU), "*SOLID SECTION,ELSET=ALL,MATERIAL=M", "*BOUNDARY"]
    bottom, front = ys.index(0), zs.index(DEPTH)
    pins = [(i, bottom, k) for i in (0, NX) for k in (0, front)]
    lines += ["%d,2" % ids[p] for p in pins]
    lines += ["%d,1" % ids[pins[0]], "%d,3" % ids[pins[0]], "%d,3" % ids[pins[2]]]
    marks = {"back": (NX // 2, bottom, 0), "middle": (NX // 2, bottom, front // 2), "front": (NX // 2, bottom, front)}
    lines += ["*NSET,NSET=MARKS"] + ["%d" % ids[m] for m in marks.values()]
    lines += ["*STEP", "*STATIC", "*CLOAD"]
    for i in range(NX + 1):
        for k in range(front + 1):
            a = (0.5 if i in (0, NX) else 1) * L / NX * (0.5 if k in (0, front) else 1) / front
            lines.append("%d,2,%.9f" % (ids[(i, len(ys) - 1, k)], -LOAD * a))
    lines += ["*NODE PRINT,NSET=MARKS", "U", "*END STEP", ""]
    return "\n".join(lines), {name: ids[m] for name, m in marks.items()}


def main():
    out, version = {}, "?"
    for name, strip in (("bare", False), ("edged", True)):
        text, marks = deck(strip)
        moves, version = run_text(text)
        out[name] = {m: -moves[n - 1][1] for m, n in marks.items()}
        print(name, {k: round(v, 4) for k, v in out[name].items()})
    doc = {"program": "CalculiX", "package": "calculix-ccx", "version": version, "span_mm": L, "depth_mm": DEPTH, "thick_mm": THICK, "load_kg_per_m": 54,
           "strip_mm": list(STRIP), "modulus_mpa": E, "shear_mpa": E / 2 / (1 + NU), "sags_mm": out}
    if "--write" in sys.argv:
        path = os.path.join(os.path.dirname(__file__), "..", "..", "internal", "mech", "beam", "testdata", "fe.json")
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, "w") as f:
            json.dump(doc, f, indent=1)
            f.write("\n")


if __name__ == "__main__":
    main()
