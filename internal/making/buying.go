package making

import (
	"fmt"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// Bill is the buying list with its sums, in the piece's currency.
type Bill struct {
	Lines []work.BuyLine
	// Missing is what must be bought, Stock what all that is used is worth.
	Missing, Stock trace.Num
	// Unpriced names what is missing and has no price in the shop file: the sums
	// are too low by it.
	Unpriced []string
}

// Buying lists what the piece takes: the stock of the layouts, the fittings,
// the glue.
func Buying(p *piece.Piece, d *design.Design, layouts []work.Layout) Bill {
	var b Bill
	for _, l := range layouts {
		b.add(stockLine(p, d, l))
	}
	for _, l := range fittingLines(p) {
		b.add(l)
	}
	if l, ok := glueLine(p, d); ok {
		b.add(l)
	}
	return b
}

func (b *Bill) add(l work.BuyLine) {
	b.Lines = append(b.Lines, l)
	b.Missing = b.Missing.Add(l.Cost)
	b.Stock = b.Stock.Add(l.Price.Mul(l.Count))
	if l.Price.V <= 0 && l.Count.V > float64(l.InHand) {
		b.Unpriced = append(b.Unpriced, l.What)
	}
}

// missing is what is still to be bought of a count, in whole pieces.
func missing(count trace.Num, inHand int) trace.Num {
	return trace.Step(max(0, count.V-float64(inHand)), count)
}

func stockLine(p *piece.Piece, d *design.Design, l work.Layout) work.BuyLine {
	count := l.Count
	if used := float64(len(l.Sheets) + len(l.Sticks)); count.V != used && used > 0 {
		count = trace.Step(used, count)
	}
	line := work.BuyLine{What: l.Stock, Count: count, Unit: "sheet", For: partsOf(p, l.Stock)}
	if len(l.Sticks) > 0 {
		line.Unit = "stick"
	}
	s := stockNamed(d, l.Stock)
	if s == nil {
		return line
	}
	if s.Stick {
		line.Unit = "stick"
	}
	line.InHand, line.Price = s.InHand, s.Price
	line.Cost = s.Price.Mul(missing(count, s.InHand))
	line.Length, line.Width = s.Length, s.Width
	line.Size = fmt.Sprintf("%.0f × %.0f", s.Length.V, s.Width.V)
	return line
}

func stockNamed(d *design.Design, name string) *design.Stock {
	if d.Shop == nil {
		return nil
	}
	for _, s := range d.Shop.Stocks {
		if s.Name == name {
			return s
		}
	}
	return nil
}

// partsOf names the parts of one stock, a few of them.
func partsOf(p *piece.Piece, stock string) string {
	const most = 4
	var names []string
	n := 0
	for _, q := range p.Parts {
		if q.Stock == nil || q.Stock.Name != stock {
			continue
		}
		if n++; n <= most {
			names = append(names, q.ID)
		}
	}
	text := strings.Join(names, ", ")
	if n == 0 {
		return "formers and what goes with them"
	}
	if n > most {
		text = fmt.Sprintf("%s and %d more", text, n-most)
	}
	return text
}

// fittingLines adds up the fittings by name, in the order in which they appear.
func fittingLines(p *piece.Piece) []work.BuyLine {
	var out []work.BuyLine
	at := map[string]int{}
	for _, f := range p.Fittings {
		i, ok := at[f.What]
		if !ok {
			i = len(out)
			at[f.What] = i
			out = append(out, work.BuyLine{What: f.What, Unit: "piece", InHand: f.InHand, Price: f.Price})
			if f.Kind == "slide" {
				out[i].Unit = "pair"
			}
		}
		l := &out[i]
		l.Count = l.Count.Plus(float64(f.Count))
		if f.On != "" && !strings.Contains(", "+l.For+", ", ", "+f.On+", ") {
			if l.For != "" {
				l.For += ", "
			}
			l.For += f.On
		}
	}
	for i := range out {
		out[i].Cost = out[i].Price.Mul(missing(out[i].Count, out[i].InHand))
	}
	return out
}

// glueLine is the glue that the glued joints take, by the first glue of the
// shop that says how it is spread.
func glueLine(p *piece.Piece, d *design.Design) (work.BuyLine, bool) {
	area := GlueArea(p)
	if d.Shop == nil || area.V <= 0 {
		return work.BuyLine{}, false
	}
	for _, g := range d.Shop.Glues {
		if g.Spread.V <= 0 {
			continue
		}
		kg := area.Mul(g.Spread)
		return work.BuyLine{What: g.Name, Count: kg, Unit: "kg", Price: g.Price, Cost: g.Price.Mul(kg),
			For: fmt.Sprintf("%.2f m² of glue line", area.V/1e6), Area: area}, true
	}
	return work.BuyLine{}, false
}

// GlueArea is the area of all glued joints, mm².
func GlueArea(p *piece.Piece) trace.Num {
	var area trace.Num
	for _, j := range p.Joints {
		if j.Glued {
			area = area.Add(j.Area)
		}
	}
	return area
}
