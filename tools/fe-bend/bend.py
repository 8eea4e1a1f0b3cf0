"""Bends a kerfed strip by finite elements, to be held against the chain of stiff
ribs and hinges that Rodwork reckons with.

    bend.py [FOLDER]

Writes meshes of plane-stress elements with eight nodes, runs the open finite
element program CalculiX (`ccx`, Debian package calculix-ccx) on them in FOLDER
(else a temporary one), and prints:

  cell    one kerf between two half ribs, turned at its ends without a pull: its
          neutral line, its stiffness, and from that how much longer the hinge is
          than the slot, in skins (the model's beta)
  strip   a strip of kerfs, held at one end and weighed down at the other, with
          large displacements: where its end comes to rest

Nothing of Rodwork is used. What it printed, with the program's version, stands in
README.md beside it and is what tests hold the model against.
"""
import math
import os
import re
import subprocess
import sys
import tempfile

# Birch plywood of 13 plies, MPa and mm; x runs along the strip, the face grain
# with it. Engineering constants of one veneer (the moduli are those that Rodwork
# takes; the shear moduli and the ratio are from memory of handbooks).
ALONG = dict(ex=17500.0, ey=600.0, g=900.0, nu=0.3)
ACROSS = dict(ex=600.0, ey=600.0, g=150.0, nu=0.3)
FACE, INNER, THICK = 1.1, 1.4, 17.7


def plies():
    """Tops of the veneers from the show face, each with its material."""
    y, out, along = FACE, [], False
    out.append((FACE, ALONG))
    while y + INNER < THICK - FACE:
        y += INNER
        out.append((y, ACROSS if not along else ALONG))
        along = not along
    out.append((THICK, ALONG))
    return out


def material(y):
    for top, m in plies():
        if y < top:
            return "ALONG" if m is ALONG else "ACROSS"
    return "ALONG"


def heights(skin, fine):
    """Element borders from the show face: fine in the skin, coarser above it."""
    marks = sorted({0.0, FACE, skin, THICK} | {t for t, _ in plies() if t > skin})
    out = [0.0]
    for a, b in zip(marks, marks[1:]):
        n = max(1, round((b - a) / (skin / fine if b <= skin + 1e-9 else 0.7)))
        out += [a + (b - a) * (i + 1) / n for i in range(n)]
    return out


def places(ribs, kerf, fine):
    """Element borders along the strip, and whether each column is a kerf. Columns
    grow finer towards the walls of a kerf, where the skin enters the rib."""
    x, out, kind = 0.0, [0.0], []
    for i, rib in enumerate(ribs):
        n = max(6, 2 * fine)
        for k in range(n):
            s = 0.5 - 0.5 * math.cos(math.pi * (k + 1) / n)
            out.append(x + rib * s)
            kind.append(False)
        x += rib
        if i + 1 < len(ribs):
            for k in range(2 * fine):
                out.append(x + kerf * (k + 1) / (2 * fine))
                kind.append(True)
            x += kerf
    return out, kind


class Mesh:
    def __init__(self, ribs, kerf, skin, fine):
        self.ids, self.at, self.elements = {}, [], []
        xs, kind = places(ribs, kerf, fine)
        ys = heights(skin, fine)
        self.length = xs[-1]
        for i, slot in enumerate(kind):
            for j in range(len(ys) - 1):
                if slot and ys[j] >= skin - 1e-9:
                    continue
                x0, x1, y0, y1 = xs[i], xs[i + 1], ys[j], ys[j + 1]
                xm, ym = (x0 + x1) / 2, (y0 + y1) / 2
                corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1), (xm, y0), (x1, ym), (xm, y1), (x0, ym)]
                self.elements.append((material(ym), [self.node(c) for c in corners]))

    def node(self, p):
        key = (round(p[0], 6), round(p[1], 6))
        if key not in self.ids:
            self.ids[key] = len(self.at) + 1
            self.at.append(p)
        return self.ids[key]

    def edge(self, x):
        return [i + 1 for i, p in enumerate(self.at) if abs(p[0] - x) < 1e-6]

    def text(self):
        out = ["*NODE, NSET=ALL"]
        out += [f"{i + 1}, {p[0]:.7f}, {p[1]:.7f}, 0." for i, p in enumerate(self.at)]
        for name in ("ALONG", "ACROSS"):
            out.append(f"*ELEMENT, TYPE=CPS8, ELSET={name}")
            out += [f"{i + 1}, " + ", ".join(map(str, e)) for i, (m, e) in enumerate(self.elements) if m == name]
        for name, m in (("ALONG", ALONG), ("ACROSS", ACROSS)):
            nu = m["nu"] * m["ey"] / m["ex"] if m["ex"] > m["ey"] else m["nu"]
            # nu12 is by x for a pull along x; the third direction is as the second
            out += [f"*MATERIAL, NAME={name}", "*ELASTIC, TYPE=ENGINEERING CONSTANTS",
                    f"{m['ex']}, {m['ey']}, {m['ey']}, {m['nu'] if m['ex'] > m['ey'] else nu}, {m['nu'] if m['ex'] > m['ey'] else nu}, 0.3, {m['g']}, {m['g']},",
                    f"{m['g']}", "*ORIENTATION, NAME=O" + name, "1., 0., 0., 0., 1., 0.",
                    f"*SOLID SECTION, ELSET={name}, MATERIAL={name}, ORIENTATION=O{name}", "1."]
        return out


def run(folder, name, lines):
    path = os.path.join(folder, name)
    with open(path + ".inp", "w") as f:
        f.write("\n".join(lines) + "\n")
    done = subprocess.run(["ccx", name], cwd=folder, capture_output=True, text=True, env=dict(os.environ, OMP_NUM_THREADS="1"))
    if not os.path.exists(path + ".dat") or "ERROR" in done.stdout:
        sys.exit(f"ccx failed on {name}:\n{done.stdout[-2000:]}")
    with open(path + ".dat") as f:
        return f.read()


def table(dat, what):
    """The last table of the kind in what ccx printed: node to its numbers."""
    out = {}
    for block in re.split(r"\n\s*(?=(?:forces|displacements)\b)", dat):
        if block.lstrip().startswith(what):
            out = {}
            for line in block.splitlines()[1:]:
                f = line.split()
                if len(f) == 4:
                    out[int(f[0])] = [float(v) for v in f[1:]]
    return out


def cell(folder, rib, kerf, skin, fine):
    """One kerf: neutral line and stiffness for 1 mm of width, by two load cases
    put together so that nothing pulls."""
    got = []
    for name, move in (("turn", lambda y: -1e-3 * y), ("pull", lambda y: 1e-3)):
        m = Mesh([rib / 2, rib / 2], kerf, skin, fine)
        left, right = m.edge(0), m.edge(m.length)
        foot = min(left, key=lambda i: m.at[i - 1][1])
        lines = m.text() + ["*NSET, NSET=RIGHT"] + [f"{i}," for i in right] + ["*STEP", "*STATIC", "*BOUNDARY"]
        lines += [f"{i}, 1, 1, 0." for i in left] + [f"{foot}, 2, 2, 0."]
        lines += [f"{i}, 1, 1, {move(m.at[i - 1][1]):.10e}" for i in right]
        lines += ["*NODE PRINT, NSET=RIGHT", "RF", "*END STEP"]
        rf = table(run(folder, "cell-" + name, lines), "forces")
        n = sum(rf[i][0] for i in right)
        got.append((n, sum(rf[i][0] * m.at[i - 1][1] for i in right)))
    (na, ma), (nb, mb) = got
    u = -na / nb
    # Turned by 1e-3 about the show face and pulled by u·1e-3: no force is left.
    moment = -(ma + u * mb)
    return u, moment / 1e-3


def strip(folder, count, rib, kerf, skin, load, fine):
    """A cantilever of kerfs with a dead load at its end, N for 1 mm of width, up on
    the kerfed side, so that the kerfs close. Returns how far the end moves along
    and across, and the turn of its end face."""
    m = Mesh([rib / 2] + [rib] * (count - 1) + [rib / 2], kerf, skin, fine)
    left, right = m.edge(0), m.edge(m.length)
    at = min(right, key=lambda i: abs(m.at[i - 1][1] - THICK / 2))
    low, high = min(right, key=lambda i: m.at[i - 1][1]), max(right, key=lambda i: m.at[i - 1][1])
    lines = m.text() + ["*NSET, NSET=TIP", f"{at}, {low}, {high}", "*STEP, NLGEOM, INC=200", "*STATIC", "0.1, 1., 1e-5, 0.2", "*BOUNDARY"]
    lines += [f"{i}, 1, 2, 0." for i in left]
    lines += ["*CLOAD", f"{at}, 2, {load}", "*NODE PRINT, NSET=TIP", "U", "*END STEP"]
    u = table(run(folder, "strip", lines), "displacements")
    a, b = (m.at[i - 1] for i in (low, high))
    turn = math.atan2(-(u[high][0] - u[low][0]), b[1] - a[1] + u[high][1] - u[low][1])
    return u[low][0], u[low][1], turn, m.length


def skin_model(skin):
    """Neutral line and EI of the skin for 1 mm of width, by its layers."""
    face = min(FACE, skin)
    rest = max(skin - FACE, 0)
    eh = ALONG["ex"] * face + ACROSS["ex"] * rest
    y = (ALONG["ex"] * face * face / 2 + ACROSS["ex"] * rest * (FACE + rest / 2)) / eh
    ei = ALONG["ex"] * (face**3 / 12 + face * (y - face / 2) ** 2) + ACROSS["ex"] * (rest**3 / 12 + rest * (FACE + rest / 2 - y) ** 2)
    return y, ei


def main():
    folder = sys.argv[1] if len(sys.argv) > 1 else tempfile.mkdtemp()
    os.makedirs(folder, exist_ok=True)
    version = subprocess.run(["ccx", "-v"], capture_output=True, text=True).stdout.strip()
    print(version)
    rib, kerf = 3.88, 2.2
    for skin in (1.1, 1.6, 2.0):
        y, ei = skin_model(skin)
        for fine in (4, 6):
            u, k = cell(folder, rib, kerf, skin, fine)
            print(f"cell skin {skin} fine {fine}: neutral {u:.4f} (layers {y:.4f}), stiffness {k:.1f}, hinge {ei / k:.4f}, beta {(ei / k - kerf) / skin:.4f}")
    u, k = cell(folder, rib, kerf, 1.6, 6)
    for load in (0.05, 0.15, 0.3):
        dx, dy, turn, length = strip(folder, 10, rib, kerf, 1.6, load, 4)
        print(f"strip of 10, load {load} N/mm: length {length:.2f}, end along {dx:.4f}, across {dy:.4f}, turned {math.degrees(turn):.4f}")


if __name__ == "__main__":
    main()
