"""Cuts the faces down; see subset.sh."""
import sys
from fontTools import subset
from fontTools.ttLib import TTFont
from fontTools.varLib import instancer

src, out = sys.argv[1], sys.argv[2]
SANS, SERIF = src + "/expogooglefontssourcesans3041/", src + "/expogooglefontssourceserif4041/"
WIDE = src + "/fontsourcevariablesourceserif4531/files/source-serif-4-latin-opsz-normal.woff2"
LATIN = list(range(0x20, 0x7F)) + list(range(0xA0, 0x180))
GREEK = list(range(0x391, 0x3CA))
SIGNS = [ord(c) for c in "‐‑‒–—‘’‚“”„…′″‹›⁄€™→←↑↓↔−√∞≈≠≤≥∑∆½⅓⅔¼¾⅛⅜⅝⅞⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉☐☑✓✗□■○●◦▪  "]
FACES = [  # file, from, characters
    ("text", SERIF + "400Regular/SourceSerif4_400Regular.ttf", LATIN + GREEK + SIGNS),
    ("text-italic", SERIF + "400Regular_Italic/SourceSerif4_400Regular_Italic.ttf", LATIN + GREEK + SIGNS),
    ("text-bold", SERIF + "600SemiBold/SourceSerif4_600SemiBold.ttf", LATIN + GREEK + SIGNS),
    ("table", SANS + "400Regular/SourceSans3_400Regular.ttf", LATIN + GREEK + SIGNS),
    ("table-bold", SANS + "600SemiBold/SourceSans3_600SemiBold.ttf", LATIN + GREEK + SIGNS),
    ("title", WIDE, LATIN + SIGNS),
]


def rename(font, name):
    """Puts our own family in the name table, as the licence asks."""
    for rec in font["name"].names:
        if rec.nameID in (1, 3, 4, 6, 16, 18, 21, 25):
            rec.string = "Rodwork-" + name if rec.nameID == 6 else "Rodwork " + name


for name, path, chars in FACES:
    font = TTFont(path)
    if "fvar" in font:  # the cut for large sizes: finer hairlines
        font = instancer.instantiateVariableFont(font, {"wght": 400, "opsz": 36})
    opt = subset.Options()
    opt.layout_features = ["kern", "mark", "mkmk", "liga", "lnum", "tnum", "frac", "sups", "locl", "ccmp"]
    opt.name_IDs, opt.name_languages, opt.notdef_outline = ["*"], ["*"], True
    opt.flavor = "woff2"
    opt.hinting = False
    sub = subset.Subsetter(opt)
    sub.populate(unicodes=chars)
    sub.subset(font)
    rename(font, name)
    font["head"].modified = font["head"].created  # the same bytes every time
    font.recalcTimestamp = False
    font.flavor = "woff2"
    font.save(f"{out}/{name}.woff2")
