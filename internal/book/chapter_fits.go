package book

import (
	"math"
	"slices"

	"rodwork/internal/fit"
	"rodwork/internal/mech/spread"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

// How often a fit is built: for a reader who waits a tenth of it, and it is said.
const (
	builds      = 10_000
	hastyBuilds = 1_000
)

// built is a fit with what came of its builds.
type built struct {
	fit.Fit
	spread.Result
}

// fits says how the fits will come out, and what to measure first.
func (w *writer) fits() {
	n := builds
	if w.opt.Old != nil {
		n = hastyBuilds
	}
	var all []built
	for _, f := range fit.All(w.p.FitInput()) {
		all = append(all, built{f, f.Build(n)})
	}
	if len(all) == 0 {
		return
	}
	w.head("fits", "How the fits will come out")
	w.say("fits how", say.F("Each fit is built {} times over, by its own geometry, with errors as large as this shop’s: of thickness, blade, bit, fence, length and moisture. "+
		"What was not measured is taken as common practice has it. Every chance is a count, within the error that stands with it.", number(n)))
	w.table(fitTable(all))
	for _, f := range all {
		w.risk(f)
	}
	w.shutAngle(all)
	w.table(w.causeTable(all))
}

// fitTable has a row for each fit that asks something.
func fitTable(all []built) table.Table {
	t := table.Table{Key: "fit list", Caption: "What the fits come to",
		Columns: []table.Column{table.Names("fit"), table.Numbers("planned", units.Length), table.Numbers("mean", units.Length), table.Numbers("from", units.Length), table.Numbers("to", units.Length),
			percent("too tight"), percent("too loose"), percent("shows"), table.Words("measure first")},
		Note: "Clearance of slots, play of shelves and drawers, the mouth of the narrowest kerf, the gap at the rail. Nine builds in ten lie between ‘from’ and ‘to’. A slot binds at the thickest of three places: so its mean lies under what is planned."}
	for _, f := range all {
		if f.Kind == fit.Shut {
			continue
		}
		m, nominal := f.Tight, f.Nominal.Tight
		if f.Kind == fit.OnRail {
			m, nominal = f.Gap, f.Nominal.Gap
		}
		mm := func(v float64) table.Cell { return table.Q(say.Len(v, onSteel).Plain()) }
		t.Rows = append(t.Rows, table.Row{ID: f.ID, Cells: []table.Cell{table.T(f.Title), mm(nominal), mm(m.Mean), mm(m.Low), mm(m.High),
			odds(f.TooTight, f.Limits.Tight), odds(f.TooLoose, f.Limits.Loose), odds(f.Visible, f.Limits.Gap), table.T(first(f))}})
	}
	return t
}

func percent(head string) table.Column {
	return table.Column{Head: head, Unit: "%", Align: table.Right}
}

// odds prints a chance; a limit that is not asked has none.
func odds(c spread.Chance, limit float64) table.Cell {
	if math.IsInf(limit, 0) {
		return table.T("–")
	}
	return table.Q(say.Num(100*c.P, 1))
}

// first is the cause with the largest share.
func first(f built) string {
	if len(f.Shares) == 0 || f.Shares[0].Of == 0 {
		return "–"
	}
	return f.Shares[0].Cause
}

// risky is the chance of a bad fit from which it is told in words.
const risky = 0.05

// risk says what a fit that often comes out badly hangs on, and what would help.
func (w *writer) risk(f built) {
	if f.Bad.P < risky || f.Kind == fit.Shut {
		return
	}
	worst, how := f.TooTight, "is too tight"
	if f.TooLoose.P > worst.P {
		worst, how = f.TooLoose, "is too loose"
	}
	if f.Visible.P > worst.P {
		worst, how = f.Visible, "leaves more open than glue fills"
	}
	s := say.F("{} {} in {} of the builds (± {}). Most of its scatter, {}, is {}.", say.Name(upper(f.Title)), how, say.Percent(worst.P, 0), say.Percent(2*worst.SE, 1),
		say.Percent(f.Shares[0].Of, 0), say.Name(f.Shares[0].Cause))
	switch o := f.originOf(f.Shares[0].Cause); {
	case f.Test != nil:
		s = join(s, say.F("Cut its step test piece first: it tells the clearance that this cutter and this panel want."))
	case !o.Measured:
		s = join(s, say.F("It was not measured: write it down in the shop file under {}.", say.Choice(o.Path, o.Path)))
	default:
		s = join(s, say.F("Measure it at the very place, and cut to that."))
	}
	w.say("risk "+f.ID, s, f.Parts...)
}

func (f built) originOf(cause string) fit.Origin {
	for i, c := range f.Stack.Causes {
		if c.Name == cause {
			return f.Origins[i]
		}
	}
	return fit.Origin{}
}

// shutAngle says why shut kerfs set no angle.
func (w *writer) shutAngle(all []built) {
	for _, f := range all {
		if f.Kind != fit.Shut {
			continue
		}
		s := say.F("Were the kerfs of the bend at the {} shut, it would turn {} and scatter by ± {} (two deviations), as one blade’s error comes back in every kerf: shut kerfs set no angle. "+
			"With open ones the blade’s width moves nothing that is measured outside.", say.Name(f.Corner), say.Angle(f.Tight.Mean, 1), say.Angle(2*f.Tight.SD, 1))
		w.say("shut "+f.ID, s, f.Path)
	}
}

// causeTable has the causes of each fit with their shares, largest first.
func (w *writer) causeTable(all []built) table.Table {
	t := table.Table{Key: "causes", Caption: "What they hang on",
		Columns: []table.Column{table.Names("fit"), table.Words("cause"), percent("share"), table.Numbers("its spread", units.Length), table.Words("from")},
		Note:    "Shares of the scatter, each cause by itself; under 2 % are left out. A spread is one standard deviation; that of moisture is in points of per cent."}
	for _, f := range all {
		if f.Kind == fit.Shut {
			continue
		}
		title := f.Title
		for _, s := range f.Shares {
			if s.Of < 0.02 {
				continue
			}
			i := slices.IndexFunc(f.Stack.Causes, func(c spread.Cause) bool { return c.Name == s.Cause })
			sd := table.Q(say.Len(f.Stack.Causes[i].SD, 3).Plain())
			if s.Cause == "moisture" {
				sd = table.Q(say.Num(f.Stack.Causes[i].SD, 1))
			}
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.T(title), table.T(s.Cause), table.Q(say.Num(100*s.Of, 0)), sd, table.T(f.Origins[i].From)}})
			title = ""
		}
	}
	return t
}
