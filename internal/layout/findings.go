package layout

import (
	"errors"
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/sheet"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// misfit finds whether a blank fits on no sheet, or no stick, even alone.
func (m *maker) misfit(q *piece.Part) (work.Finding, bool) {
	s := m.stock
	two := trace.Const(2)
	length, width := s.Length.Sub(s.Trim.Mul(two)), s.Width.Sub(s.Trim.Mul(two))
	if s.Stick {
		width = s.Width // a stick has no trim along its edges
	}
	along, across := q.BlankLength, q.BlankWidth
	switch m.way(q) {
	case sheet.Across:
		along, across = across, along
	case sheet.Free: // the way that lacks less
		straight := max(micro(along.V)-micro(length.V), 0) + max(micro(across.V)-micro(width.V), 0)
		turned := max(micro(across.V)-micro(length.V), 0) + max(micro(along.V)-micro(width.V), 0)
		if turned < straight {
			along, across = across, along
		}
	}
	value, limit, what := along, length, "long"
	if micro(along.V) <= micro(length.V) {
		value, limit, what = across, width, "wide"
	}
	if micro(value.V) <= micro(limit.V) {
		return work.Finding{}, false
	}
	f := m.finding("layout/"+q.ID, q, "blank larger than the stock")
	f.Rule, f.Value, f.Limit, f.Unit = RuleFits, value, limit, "mm"
	kind := "sheet"
	if s.Stick {
		kind = "stick"
	}
	f.Text = say.F("the blank of {} is {} {}, and a "+kind+" of {} gives {} inside its trim: it needs a "+kind+" of at least {} by {}",
		say.Name(q.Name), say.Len(value.V, 1), what, say.Choice(s.Name, s.Path), say.Len(limit.V, 1),
		say.Len(along.Add(s.Length.Sub(length)).V, 1).Plain(), say.Len(across.Add(s.Width.Sub(width)).V, 1))
	f.Mends = []work.Mend{{Text: say.F("part the piece so that {} comes in two, or buy a longer "+kind, say.Name(q.Name)), Path: q.Path}}
	return f, true
}

// way is how a part lies; on a stick always along it.
func (m *maker) way(q *piece.Part) sheet.Grain {
	if m.stock.Stick {
		return sheet.Along
	}
	return grain(q, m.stock)
}

func (m *maker) finding(id string, q *piece.Part, title string) work.Finding {
	return work.Finding{ID: id, Verdict: work.Stop, Title: title, Part: q.ID, Path: q.Path, Chapter: "cut"}
}

func (m *maker) noSize(q *piece.Part) work.Finding {
	f := m.finding("layout/"+q.ID, q, "no blank")
	f.Rule, f.Unit = RuleFits, "mm"
	f.Value = q.BlankLength
	if micro(q.BlankWidth.V) < 1 {
		f.Value = q.BlankWidth
	}
	f.Text = say.F("the blank of {} comes to {} by {}: there is nothing to cut", say.Name(q.Name),
		say.Len(q.BlankLength.V, 1).Plain(), say.Len(q.BlankWidth.V, 1))
	return f
}

// noSaw says that without a saw there is no kerf, and so no layout.
func noSaw(s *design.Stock) work.Finding {
	return work.Finding{ID: "layout/" + s.Name, Rule: RuleKerf, Verdict: work.Stop, Title: "no saw", Unit: "mm", Path: "saws", Chapter: "cut",
		Text: say.F("the shop file names no saw, so no kerf is known and {} is not laid out", say.Choice(s.Name, s.Path))}
}

// failed says why a stock could not be laid out.
func (m *maker) failed(err error) work.Finding {
	f := work.Finding{ID: "layout/" + m.stock.Name, Rule: RuleFits, Verdict: work.Stop, Title: "no layout", Unit: "mm", Path: m.stock.Path, Chapter: "cut"}
	var in *sheet.InputError
	if errors.As(err, &in) {
		f.Text = say.F("{} cannot be laid out: {}", say.Choice(m.stock.Name, m.stock.Path), fmt.Sprintf("%s is %d, and must be %s", in.What, in.Value, in.Want))
		return f
	}
	f.Text = say.F("{} is not laid out: {}", say.Choice(m.stock.Name, m.stock.Path), err.Error())
	return f
}
