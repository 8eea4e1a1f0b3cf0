package bend

import (
	"math"

	"rodwork/internal/cite"
)

var ruleOutside = &cite.Rule{
	ID: "BEND-17", Title: "Kerfs on the outside",
	Question: "How are kerfs spaced on the convex face, and how far do they open?",
	Formula:  "s = w + 2·(R_n − w/α)·tan(α/2), with R_n = R_o − t + y_n; mouth w + α·(t − y_n); strain of the kerf's floor (h − y_n)·α/w",
	Symbols:  []cite.Symbol{symRadius, symThick, symAngle, symCount, symSkin, symKerf, symNeutral},
	Sources:  []cite.Source{chainSource},
	Assumes: []string{
		"ribs stay straight and skins turn evenly over the width of the kerf, as with kerfs inside; the skin is the inner face, y_n is measured from it",
		"the floor of the kerf is stretched, the uncut face pressed; wood that crushes there first lets the line wander outwards, which stretches the floor less",
	},
	Accuracy: "exact for the chain; an independent routine that folds the list of kerfs finds it again",
	Remedies: []string{"Cut the kerfs on the inside, from the other face: mouths then close out of sight.", "Cover the open slots with a veneer, or fill them, before anyone leans on them."},
	Example: cite.Example{
		In:   map[string]float64{"radius": 150, "thick": 18, "angle": 90, "count": 24, "skin": 2, "kerf": 3.2},
		Out:  map[string]float64{"pitch": 8.707, "mouth": 4.31265, "floorStrain": 0.020453},
		From: "worked by hand: R_n = 133, α = 0.0654498, w/α = 48.8924, 3.2 + 2·84.1076·0.0327366; 3.2 + 0.0654498·17; 1·0.0654498/3.2",
	},
	Eval: func(in map[string]float64) []cite.Result {
		alpha, y := rad(in["angle"])/in["count"], neutralOf(in)
		s := Pitch(in["radius"]-in["thick"]+y, in["kerf"], alpha)
		if s <= in["kerf"] || alpha >= math.Pi/2 || in["skin"] >= in["thick"] {
			s = math.NaN()
		}
		return []cite.Result{mm("pitch", s), mm("flat", s*in["count"]), mm("mouth", in["kerf"]+alpha*(in["thick"]-y)),
			plain("floorStrain", Strain(in["skin"]-y, alpha, in["kerf"], in["skin"], 0))}
	},
}

var ruleForce = &cite.Rule{
	ID: "BEND-18", Title: "Force that closes the bend",
	Question: "How hard must a clamp or a hand pull at the end of the strip to bring it round?",
	Formula:  "F = M/L, with M by BEND-12 and the straight stretch L behind the bend, of which at most 300 mm counts",
	Symbols: []cite.Symbol{
		{Letter: "M", Name: "moment", Meaning: "moment that holds the bend", Unit: "N·mm", Min: 0, Max: 1e8, Why: "furniture"},
		{Letter: "L", Name: "arm", Meaning: "straight stretch from the tangent point to where it is pulled", Unit: "mm", Min: 1, Max: 20000, Why: "a strip"},
	},
	Sources: []cite.Source{{Text: "lever: moment over arm", Label: cite.Derived},
		{Text: "beyond some 300 mm a limp strip bows instead of passing on the pull", Label: cite.Practice}},
	Assumes:  []string{"the force is square to the strip; weight and friction on the former are left out", "no kerf has shut: then the force rises steeply"},
	Accuracy: "within a factor of two, as the moment is",
	Remedies: []string{"Pull with a caul across the whole width, not at one place.", "A longer flat that is trimmed last."},
	Example: cite.Example{
		In: map[string]float64{"moment": 15880, "arm": 200}, Out: map[string]float64{"force": 79.4}, From: "worked by hand: 15880/200",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "force", Unit: "N", Value: CloseForce(in["moment"], in["arm"])}}
	},
}

var ruleGivenBack = &cite.Rule{
	ID: "BEND-19", Title: "Spring-back of a kerfed bend",
	Question: "How much of the bend is given back when it comes off the former, bare or with an inner ply glued over the ribs?",
	Formula:  "lost = before/after, each 1/[w/EI_k + (s − w)/EI_r] over a pitch; EI = ΣE·(h³/12 + h·d²) about the common neutral line, at a kerf with the skin (and the ply, t from the show face), at a rib with the sheet",
	Symbols: []cite.Symbol{symThick, symSkin, symKerf, symPitch,
		{Letter: "E_s", Name: "skinmodulus", Meaning: "modulus of the skin along the bend", Unit: "MPa", Min: 50, Max: 30000, Why: "wood"},
		{Letter: "E_t", Name: "sheetmodulus", Meaning: "modulus of the whole sheet along the bend", Unit: "MPa", Min: 50, Max: 30000, Why: "wood"},
		{Letter: "p", Name: "ply", Meaning: "thickness of the inner ply; 0: bare", Unit: "mm", Min: 0, Max: 12, Why: "thin ply"},
		{Letter: "E_p", Name: "plymodulus", Meaning: "modulus of the ply along the bend", Unit: "MPa", Min: 50, Max: 30000, Why: "wood"},
	},
	Sources: []cite.Source{{Text: "elastic bars bonded while bent: the moment that held the bend is let go on the bonded section", Label: cite.Derived}},
	Assumes: []string{
		"glue that does not creep and holds on every rib tip; ribs that do not shear",
		"elastic: a skin that was soaked or has crushed keeps some of its bend by itself, so that less is given back",
		"the ply is glued stress-free: it was bent cold, and its own pull is left out, so that a stiff ply gives back a little more",
	},
	Accuracy: "an estimate: measure the test strip after it has come off",
	Remedies: []string{"Glue an inner ply over the ribs.", "Fix the strip to its rails before it comes off the former.", "Bend a little too far: by the share that is given back."},
	Example: cite.Example{
		In:   map[string]float64{"thick": 18, "skin": 1.1, "kerf": 3.2, "pitch": 9.75, "skinmodulus": 17500, "sheetmodulus": 10000, "ply": 3, "plymodulus": 8000},
		Out:  map[string]float64{"bare": 1, "lost": 0.00105338},
		From: "worked by hand: EI_k bare 17500·1.331/12 = 1941.04, EI_r bare 10000·486 = 4 860 000; with the ply, common lines at 11.0656 and 10.2353 mm: 3 855 903 and 7 212 706; (3.2/3855903 + 6.55/7212706)/(3.2/1941.04 + 6.55/4860000)",
	},
	Eval: func(in map[string]float64) []cite.Result {
		if in["skin"] >= in["thick"] || in["pitch"] <= in["kerf"] {
			return []cite.Result{plain("bare", 1), plain("lost", math.NaN())}
		}
		skin, sheet := []band{{0, in["skin"], in["skinmodulus"]}}, []band{{0, in["thick"], in["sheetmodulus"]}}
		give := func(k, r []band) float64 { return in["kerf"]/bandsEI(k) + (in["pitch"]-in["kerf"])/bandsEI(r) }
		before := give(skin, sheet)
		if in["ply"] > 0 {
			ply := band{in["thick"], in["ply"], in["plymodulus"]}
			skin, sheet = append(skin, ply), append(sheet, ply)
		}
		return []cite.Result{plain("bare", 1), plain("lost", give(skin, sheet)/before)}
	},
}

var ruleFloor = &cite.Rule{
	ID: "BEND-20", Title: "Floor of the kerf",
	Question: "Does the blade leave a flat floor, and which skin is then the least?",
	Formula:  "m = (w/2)·tan(bevel); the skin is h at the corners and h + m in the middle",
	Symbols: []cite.Symbol{symKerf,
		{Letter: "γ", Name: "bevel", Meaning: "bevel of the teeth's tops; 0: flat ground", Unit: "deg", Min: 0, Max: 45, Why: "saw blades"}},
	Sources:  []cite.Source{{Text: "two teeth ground to opposite bevels leave a floor like an M", Label: cite.Derived}},
	Assumes:  []string{"h is measured at the corners, where the skin is thinnest and the strain is greatest"},
	Accuracy: "exact for sharp teeth; worn ones round the corners, which is kinder",
	Remedies: []string{"A blade with flat-ground teeth for kerfs that are bent."},
	Example: cite.Example{
		In: map[string]float64{"kerf": 3.2, "bevel": 15}, Out: map[string]float64{"rise": 0.428719}, From: "worked by hand: 1.6·0.267949",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{mm("rise", FloorRise(in["kerf"], rad(in["bevel"])))}
	},
}

var ruleSeam = &cite.Rule{
	ID: "BEND-21", Title: "A strip longer than the sheet",
	Question: "Does the strip come out of one sheet, and into how many pieces must it be parted?",
	Formula:  "n = ⌈L/(S − 2·trim)⌉ pieces, n − 1 seams",
	Symbols: []cite.Symbol{
		{Letter: "L", Name: "strip", Meaning: "length of the strip, laid flat, with what is trimmed off it last", Unit: "mm", Min: 1, Max: 50000, Why: "furniture"},
		{Letter: "S", Name: "sheet", Meaning: "length of the sheet in the direction that the strip needs", Unit: "mm", Min: 100, Max: 10000, Why: "sheets"},
		{Letter: "t", Name: "trim", Meaning: "trimmed off each edge of the sheet", Unit: "mm", Min: 0, Max: 200, Why: "sheets"},
	},
	Sources:  []cite.Source{{Text: "a seam lies where it is least seen and least bent: on a straight stretch, low or behind, clear of the bends", Label: cite.Practice}},
	Assumes:  []string{"a seam takes no length of its own"},
	Accuracy: "exact for the lengths; that the pieces between seams are short enough is looked at one by one",
	Remedies: []string{"A seam on a straight stretch, with a loose tongue.", "A longer sheet.", "Square corners where the strip need not bend."},
	Example: cite.Example{
		In: map[string]float64{"strip": 3180, "sheet": 2440, "trim": 5}, Out: map[string]float64{"pieces": 2, "seams": 1}, From: "worked by hand: 3180/2430 = 1.31",
	},
	Eval: func(in map[string]float64) []cite.Result {
		n := math.Ceil(in["strip"]/(in["sheet"]-2*in["trim"]) - 1e-9)
		if in["sheet"] <= 2*in["trim"] {
			n = math.NaN()
		}
		return []cite.Result{plain("pieces", n), plain("seams", n-1)}
	},
}

var ruleSpan = &cite.Rule{
	ID: "BEND-22", Title: "The room between closing and the least rib",
	Question: "Is there any number of kerfs at all that closes far enough and still leaves ribs?",
	Formula:  "N from θ·(t − y_n)/(w − g_least) up to the largest with s − w ≥ rib, about θ·R_n/(w + rib)",
	Symbols: []cite.Symbol{symThick, symSkin, symKerf, symRadius, symAngle, symNeutral,
		{Letter: "g", Name: "mouth", Meaning: "least mouth", Unit: "mm", Min: 0, Max: 5, Why: "fuzz and glue"},
		{Letter: "r", Name: "rib", Meaning: "least rib", Unit: "mm", Min: 0.5, Max: 30, Why: "plywood"}},
	Sources:  []cite.Source{chainSource},
	Assumes:  []string{"the limits of mouth and rib as the shop has them"},
	Accuracy: "exact for the chain",
	Remedies: []string{"A larger radius.", "A wider blade: each kerf then closes further, and fewer are needed.", "A thinner sheet.", "Another way to bend: thin plies, glued on a former."},
	Example: cite.Example{
		In:   map[string]float64{"thick": 18, "skin": 0.6, "kerf": 2.2, "radius": 40, "angle": 90, "mouth": 0.3, "rib": 3},
		Out:  map[string]float64{"fewest": 15, "most": 12},
		From: "worked by hand: 1.570796·17.7/1.9 = 14.63, so 15; with 12 kerfs α 0.130900, R_n 39.7, s − w = 2·(39.7 − 16.8068)·0.0655434 = 3.001, with 13 it is under 3",
	},
	Eval: func(in map[string]float64) []cite.Result {
		room := in["kerf"] - in["mouth"]
		fewest := math.Ceil(rad(in["angle"])*(in["thick"]-neutralOf(in))/room - 1e-9)
		if room <= 0 || in["skin"] >= in["thick"] || in["radius"] <= in["thick"] {
			fewest = math.NaN()
		}
		// A homogeneous skin has its line at half of it: what is given for y_n is
		// had from a skin of twice that.
		s := Spec{Thick: in["thick"], Skin: 2 * neutralOf(in), Kerf: in["kerf"], Radius: in["radius"], Angle: rad(in["angle"]), LeastRib: in["rib"]}
		return []cite.Result{plain("fewest", fewest), plain("most", float64(s.MostCount()))}
	},
}
