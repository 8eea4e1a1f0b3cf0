package book

import (
	"rodwork/internal/cite"
	"rodwork/internal/say"
)

// warning is a caution before it is placed in a chapter.
type warning struct {
	key, title string
	text       []say.Sentence
	sources    []cite.Source
}

// deferring ends every caution.
var deferring = say.F("This is not all there is to know: the tool’s manual, the law of the place, and trained or licensed " +
	"people go before what is printed here.")

// caution puts a warning into the chapter in hand.
func (w *writer) caution(c warning) {
	w.add(Caution{ID: ID(w.key + "/caution " + c.key), Title: c.title, Text: append(c.text[:len(c.text):len(c.text)], deferring),
		Sources: c.sources})
}

var sawBench = cite.Source{Text: "Health and Safety Executive, Circular saw benches: safe working practices, Woodworking " +
	"Information Sheet WIS16", Locator: "sections on guarding and on grooving", Label: cite.Read}

var sawCaution = warning{"saw", "At the saw", []say.Sentence{
	say.F("Fit the guard and the riving knife and set them for each job. Most accidents at bench saws that were looked into " +
		"had a guard missing or badly set, and most of those happened while ripping or cross-cutting."),
	say.F("On a bench saw the hood covers the blade above table and stock, no more than {} over the stock; the riving knife is thinner than the kerf, in line, "+
		"and at most {} behind the teeth; the fence is rigid, parallel, and can’t shift.", say.Len(6.35, 0), say.Len(12.7, 0)),
	say.F("Use a push-stick; keep hands clear and out of the line of the blade; no gloves, no loose sleeves. Wear eye and " +
		"ear protection. Let the blade stop, and isolate the saw, before you clear or change anything."),
	say.F("A whole sheet is heavy and limp: support it on both sides of the cut, and have a second person for it."),
}, []cite.Source{sawBench, {Text: "29 CFR 1910.213, Woodworking machinery requirements", Locator: "(a)(6), fence", Label: cite.Read},
	{Text: "29 CFR 1910.213", Locator: "(c)(1)–(3), hood, spreader", Label: cite.FromMemory},
	{Text: "Washington Administrative Code 296-806-48012", Locator: "guard within 1/4 in of the stock", Label: cite.Read},
	{Text: "8 California Code of Regulations 4296", Locator: "(i), (j), spreader", Label: cite.Read}}}

var kerfCaution = warning{"kerf", "Kerfs don’t go through", []say.Sentence{
	say.F("A kerf leaves the board in one piece and the blade hidden under it. On a bench saw the hood that guards through " +
		"cuts, and a riving knife that stands above the blade, are in the way: that is when hands meet blades. Prefer a " +
		"plunging saw on a track, whose own hood stays over the blade; a guidance sheet for saw benches calls a well guarded " +
		"router or spindle moulder the better machine for grooves."),
	say.F("If a bench saw is used all the same: a riving knife set just below the top of the teeth stays on, a tunnel or " +
		"hold-downs cover the place of the cut, push blocks move the board, hands stay off the board above the blade, and guard and knife go back " +
		"before the next through cut."),
	say.F("The kerfed strip is limp and snaps at a kerf: carry it on a board, by two people."),
}, []cite.Source{sawBench, {Text: "bench practice", Locator: "cuts that do not go through", Label: cite.Practice}}}

var routerCaution = warning{"router", "At the router", []say.Sentence{
	say.F("Clamp the work. Feed so that the bit bites uncut wood: with the guide on the right from left to right, anticlockwise round an outside, clockwise round "+
		"an inside. No pass deeper than {}. Unplug before you change a bit. Eye and ear protection, both hands on the machine.", say.Len(3.175, 1)),
}, []cite.Source{{Text: "a router maker’s manuals, several models", Locator: "feed; 1/8 in at most in one pass", Label: cite.Read},
	{Text: "bench practice", Locator: "hand-held routing", Label: cite.Practice}}}

var dustCaution = warning{"dust", "Dust", []say.Sentence{
	say.F("Wood dust harms the lungs and the nose, and dust of hardwoods can cause cancer; plywood and fibreboard count as " +
		"mixtures. Extract it at the tool, wear a mask that fits for what is left, and don’t sweep dry or blow it about."),
	say.F("Limits at work differ and change: in Great Britain {} mg/m³ over eight hours for hardwood and mixtures and {} for "+
		"softwood were in force when the source was read. Look up what holds where you are.", say.Num(3, 0), say.Num(5, 0)),
}, []cite.Source{{Text: "Health and Safety Executive, Wood dust: controlling the risks (web page)", Locator: "exposure limits",
	Label: cite.Read}}}

var fingerCaution = warning{"fingers", "Small fingers", []say.Sentence{
	say.F("Children will use this piece. A gap that is wider than {} and narrower than {} can hold a finger; watch the hinge "+
		"line through the whole swing, not only with the door shut. Nothing that is smaller than {} should come off by hand "+
		"where children under three are.", say.Len(7, 0), say.Len(12, 0), say.Len(44.5, 1)),
	say.F("The findings say what the gaps along the hinges come to while they turn; look at them all the same."),
}, []cite.Source{{Text: "DIN EN 747-1:2015, Bunk beds and high beds, safety", Locator: "cl. 4.1.2.1 (finger gaps)", Label: cite.Quoted},
	{Text: "16 CFR 1501.4, Small parts", Locator: "what must not fit into the cylinder", Label: cite.Quoted},
	{Text: "a newspaper’s extract from a woodworking book", Locator: "rule of thumb for knobs, 1 3/4 in", Label: cite.Quoted}}}

var anchorCaution = warning{"anchor", "Before it is used: the wall", []say.Sentence{
	say.F("Furniture that tips kills children, and low pieces tip too. Fasten it to the wall before anything is put in, with a " +
		"fixing made for that wall, checked at both ends: in half of a set of failures that were collected the strap held and " +
		"its fixing to wall or furniture did not. Plastic ties can go brittle."),
	say.F("Heavy things low, nothing on top that a child would climb for, one drawer open at a time. What the tip-over check of this book says " +
		"is computed from a model; it is no test, and a test is what a standard asks for."),
	say.F("If you don’t know what is in the wall, ask someone licensed to find out."),
}, []cite.Source{{Text: "ASTM F2057-23, Safety specification for clothing storage units", Locator: "abstract and cl. 1 (its scope leaves out bookcases, shelves and benches)", Label: cite.Read},
	{Text: "ASTM F3096-23, Tipover restraints used with clothing storage units", Locator: "abstract", Label: cite.Read},
	{Text: "a trade association’s article on tip restraints, 2023", Locator: "16 failures collected 2013–2023", Label: cite.Quoted}}}

var drillCaution = warning{"drill", "At the drill", []say.Sentence{
	say.F("Clamp the work: a large bit that catches turns it. Drill blind holes against a stop; a hole that comes through the show face can’t be mended. " +
		"Eye protection; long hair tied, no gloves."),
}, []cite.Source{{Text: "bench practice", Locator: "drilling", Label: cite.Practice}}}

var handCaution = warning{"hand", "Jigsaw and chisel", []say.Sentence{
	say.F("Clamp the work and keep both hands behind the chisel’s edge. Let the jigsaw stop before you lift it; keep fingers off the underside."),
	say.F("A template bit takes its last millimetres against the turn of the bit; never run it with the turn except as a skim, by trained hands, the work clamped."),
}, []cite.Source{{Text: "bench practice", Locator: "paring, sawing curves, template routing", Label: cite.Practice}}}

var sandCaution = warning{"sanding", "Sanding dust", []say.Sentence{
	say.F("The finest dust is the worst for the lungs, and a heap of it can burn. Extract at the sander, wear a mask of class FFP3 for what is left, " +
		"and don’t sweep dry or blow it about."),
}, []cite.Source{{Text: "Health and Safety Executive, Wood dust: controlling the risks (web page)", Locator: "extraction and masks", Label: cite.Read}}}

var ragCaution = warning{"rags", "Oily rags take fire by themselves", []say.Sentence{
	say.F("Rags, pads and dust wet with a drying oil heat up in a heap and can burn hours later. Spread them flat outdoors to dry, or keep them under water in a closed " +
		"metal can. Air the room; no flame. The safety sheet of the finish tells whether it is such a one."),
}, []cite.Source{{Text: "bench practice", Locator: "oil finishes; safety sheets of such finishes say the same", Label: cite.Practice}}}

var coatCaution = warning{"coat", "A finish that children touch", []say.Sentence{
	say.F("Ask its maker for a report to EN 71-3, which limits what may come out of a toy’s coating: lead, for one, to {} mg/kg of what is scraped off. "+
		"In the United States paint on furniture may hold no more than {} % of lead.", say.Num(23, 0), say.Num(0.009, 3)),
}, []cite.Source{{Text: "EN 71-3:2019+A1:2021, Safety of toys: migration of certain elements", Locator: "category III, from a laboratory’s table", Label: cite.Quoted},
	{Text: "16 CFR 1303.1, Ban of lead-containing paint", Locator: "(a)", Label: cite.Read}}}

var lidCaution = warning{"lid", "A lid over a chest", []say.Sentence{
	say.F("Lids that fall have killed small children, on head and neck. A lid stays where it is let go, at any height, or there is no hinged lid; friction stays are not "+
		"fit for it, since they are set by hand and wear. No latch: a child may climb in. Two openings for air, each as large as a hole of {}, {} apart, that neither floor nor wall "+
		"closes.", say.Len(28.8, 1), say.Len(150, 0)),
}, []cite.Source{{Text: "ASTM F834, Toy chests", Locator: "introduction and scope", Label: cite.Read},
	{Text: "Consumer Product Safety Commission, advice on toy chests, reprint", Locator: "lid supports and latches", Label: cite.Read},
	{Text: "EN 71-1, Safety of toys, in its Russian adoption", Locator: "toys that a child can enter: 650 mm² each", Label: cite.Read}}}

var glueCaution = warning{"glue", "Glue and solvents", []say.Sentence{
	say.F("Read the safety sheet of the glue and of the finish before the tin is opened. Air the room and keep flames out; gloves where the sheet asks for them; " +
		"hardeners and isocyanates only with the mask that it names. Children and food stay away until all is cured."),
}, []cite.Source{{Text: "bench practice", Locator: "safety data sheets", Label: cite.Practice}}}

var liftCaution = warning{"lift", "Lifting", []say.Sentence{
	say.F("One person lifts no more than {} in the best of postures, by the lifting equation used in the United States, and much less with straight arms or from the floor. "+
		"A whole sheet, a glued carcase and a tall piece are lifted by two, slid, or tipped and walked; agree on who says when.", say.Kg(23, 0)),
}, []cite.Source{{Text: "Applications Manual for the Revised NIOSH Lifting Equation, NIOSH 94-110, rev. 2021", Locator: "load constant", Label: cite.Quoted}}}
