"""Cuts the faces down; see subset.sh."""
import sys
from fontTools import subset
from fontTools.ttLib import TTFont, newTable
from fontTools.ttLib.tables._k_e_r_n import KernTable_format_0
from fontTools.varLib import instancer

src, out = sys.argv[1], sys.argv[2]
SANS, SERIF = src + "/expogooglefontssourcesans3041/", src + "/expogooglefontssourceserif4041/"
WIDE = src + "/fontsourcevariablesourceserif4531/files/source-serif-4-latin-opsz-normal.woff2"
SIGNS_FROM = "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"
LATIN = list(range(0x20, 0x7F)) + list(range(0xA0, 0x180))
WORDS = LATIN + list(range(0x391, 0x3CA)) + list(range(0x400, 0x460))
SIGNS = [ord(c) for c in "‐‑‒–—‘’‚“”„…′″‹›⁄€™→←↑↓↔−√∞≈≠≤≥∑∆½⅓⅔¼¾⅛⅜⅝⅞⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉"]
OTHERS = [c for first, last in ((0x2010, 0x205F), (0x2070, 0x209F), (0x20A0, 0x20BF), (0x2100, 0x218F), (0x2190, 0x22FF), (0x2300, 0x232F),
    (0x2460, 0x2487), (0x25A0, 0x25FF), (0x2605, 0x2606), (0x2610, 0x2612), (0x2660, 0x266F), (0x2713, 0x2718), (0x27C2, 0x27C2),
    (0x1E00, 0x1EFF), (0x180, 0x24F), (0x3B1, 0x3CE), (0x370, 0x3AF)) for c in range(first, last + 1)] + [0xFFFD]
FACES = [  # file, from, characters
    ("text", SERIF + "400Regular/SourceSerif4_400Regular.ttf", WORDS + SIGNS),
    ("text-italic", SERIF + "400Regular_Italic/SourceSerif4_400Regular_Italic.ttf", WORDS + SIGNS),
    ("text-bold", SERIF + "600SemiBold/SourceSerif4_600SemiBold.ttf", WORDS + SIGNS),
    ("title", WIDE, LATIN + SIGNS),
    ("table", SANS + "400Regular/SourceSans3_400Regular.ttf", WORDS + SIGNS),
    ("table-italic", SANS + "400Regular_Italic/SourceSans3_400Regular_Italic.ttf", WORDS + SIGNS),
    ("table-bold", SANS + "600SemiBold/SourceSans3_600SemiBold.ttf", WORDS + SIGNS),
    ("signs", SIGNS_FROM, OTHERS + SIGNS),
]
KERNED = [ord(c) for c in "‘’“”„–—…"] + list(range(0x21, 0x7F)) + list(range(0xC0, 0x100))


def rename(font, name):
    """Puts our own family in the name table, as the licence asks."""
    for rec in font["name"].names:
        if rec.nameID in (1, 3, 4, 6, 16, 18, 21, 25):
            rec.string = "Rodwork-" + name if rec.nameID == 6 else "Rodwork " + name


def adjust(sub, left, right):
    """The kerning of a pair in one subtable, or None where it has no word on it."""
    if sub.LookupType == 9:
        sub = sub.ExtSubTable
    if sub.LookupType != 2 or left not in sub.Coverage.glyphs:
        return None
    if sub.Format == 1:
        for rec in sub.PairSet[sub.Coverage.glyphs.index(left)].PairValueRecord:
            if rec.SecondGlyph == right:
                return (rec.Value1.XAdvance if rec.Value1 else 0) or 0
        return None
    a, b = sub.ClassDef1.classDefs.get(left, 0), sub.ClassDef2.classDefs.get(right, 0)
    value = sub.Class1Record[a].Class2Record[b].Value1
    return getattr(value, "XAdvance", 0) or 0


def pairs(font):
    """Every pair of letters that is set closer or wider, as the face says it."""
    if "GPOS" not in font:
        return {}
    gpos, cmap, out = font["GPOS"].table, font.getBestCmap(), {}
    lookups = sorted({i for r in gpos.FeatureList.FeatureRecord if r.FeatureTag == "kern" for i in r.Feature.LookupListIndex})
    names = [cmap[c] for c in KERNED if c in cmap]
    for i in lookups:
        subs = gpos.LookupList.Lookup[i].SubTable
        for a in names:
            for b in names:
                for s in subs:
                    v = adjust(s, a, b)
                    if v is not None:
                        if abs(v) >= 4:
                            out.setdefault((a, b), v)
                        break
    return out


for name, path, chars in FACES:
    font = TTFont(path)
    if "fvar" in font:  # the cut for large sizes: finer hairlines
        font = instancer.instantiateVariableFont(font, {"wght": 400, "opsz": 36})
    kern = pairs(font)
    opt = subset.Options()
    opt.layout_features = []
    opt.name_IDs, opt.name_languages, opt.notdef_outline = ["*"], ["*"], True
    opt.hinting, opt.glyph_names = False, False
    opt.drop_tables += ["GPOS", "GSUB", "GDEF", "STAT", "DSIG", "BASE", "gasp", "MVAR", "avar", "HVAR"]
    sub = subset.Subsetter(opt)
    sub.populate(unicodes=chars)
    sub.subset(font)
    have = set(font.getGlyphOrder())
    table = KernTable_format_0()
    table.apple, table.coverage = False, 1
    table.kernTable = {p: v for p, v in kern.items() if p[0] in have and p[1] in have}
    if table.kernTable:
        font["kern"] = newTable("kern")
        font["kern"].version, font["kern"].kernTables = 0, [table]
    rename(font, name)
    font["head"].modified = font["head"].created  # the same bytes every time
    font.recalcTimestamp = False
    font.flavor = None
    font.save(f"{out}/{name}.ttf")
    print(name, len(font.getGlyphOrder()), "glyphs", len(table.kernTable), "pairs")
