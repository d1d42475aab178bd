package report

import (
	"fmt"
	"slices"
	"strings"

	"foilwright/study"
)

// check tells what is in boat files.
func (p *page) check(r *study.CheckResult) {
	var told rows
	for i := range r.Files {
		p.file(&r.Files[i], &told)
	}
	for i := range r.Differences {
		p.fileDifference(&r.Differences[i])
	}
}

// rows are lines of tables that are on the page already.
type rows []row

// news returns the rows that are not, and notes them.
func (told *rows) news(all []row) []row {
	var fresh []row
	for _, r := range all {
		if !slices.ContainsFunc(*told, func(t row) bool { return slices.Equal(t, r) }) {
			fresh = append(fresh, r)
		}
	}
	*told = append(*told, fresh...)
	return fresh
}

// file tells what is in one file without faults; with faults, how many. What an
// earlier file shares is told there.
func (p *page) file(f *study.FileCheck, told *rows) {
	if n := len(f.Faults); n > 0 {
		noun := "faults"
		if n == 1 {
			noun = "fault"
		}
		p.say(fmt.Sprintf("%s: %d %s.", f.File, n, noun))
		return
	}
	said := fmt.Sprintf("%s: no faults. %s", f.File, f.Boat)
	if f.Class != "" {
		said += ", " + f.Class
	}
	said += fmt.Sprintf(": %s, %s all up", as("m").with(f.Length), as("kg").with(f.Mass))
	if f.Figures == "invented" {
		said += "; every figure invented"
	}
	p.say(said + ".")
	var parts []row
	for _, part := range []struct {
		name string
		all  []string
	}{{"foils", f.Foils}, {"sails", f.Sails}, {"sets of sails", f.Sets}, {"modes", f.Modes}, {"controls", f.Controls}, {"takes in", f.Pulled}} {
		if len(part.all) > 0 {
			parts = append(parts, row{part.name, strings.Join(part.all, ", ")})
		}
	}
	p.table("", []column{words(""), narrow("", 78)}, parts)
	p.floating(f.Afloat)
	besides := ""
	if len(*told) > 0 {
		besides = " besides what is told above"
	}
	var unknowns, assumptions []row
	for _, u := range f.Unknowns {
		unknowns = append(unknowns, row{u.Name, u.Value, u.Basis})
	}
	for _, a := range f.Assumptions {
		// The model's own factors are uncertain, and stand in the table above.
		if !strings.HasPrefix(a.Path, "model.") {
			assumptions = append(assumptions, row{a.Path, a.Value, a.Basis})
		}
	}
	p.table("Uncertain"+besides, []column{narrow("figure", 40), words("value"), narrow("basis", 30)}, told.news(unknowns))
	p.table("Assumed, since the file does not say"+besides, []column{narrow("figure", 40), narrow("value", 24), narrow("basis", 30)}, told.news(assumptions))
}

// fileDifference tells what differs between two files.
func (p *page) fileDifference(d *study.FileDifference) {
	if len(d.Changes) == 0 {
		p.say(fmt.Sprintf("%s and %s describe the same boat.", d.From, d.To))
		return
	}
	var rows []row
	for _, c := range d.Changes {
		rows = append(rows, row{c.Path, c.From, c.To})
	}
	p.table(fmt.Sprintf("What differs from %s to %s", d.From, d.To), []column{narrow("where", 30), narrow("from", 30), narrow("to", 30)}, rows)
}

// Faults returns every fault of a check's files in the house's style, one below
// the other.
func Faults(r *study.Result) string {
	check, ok := r.Results.(*study.CheckResult)
	if !ok {
		return ""
	}
	var out strings.Builder
	for i := range check.Files {
		for _, f := range check.Files[i].Faults {
			out.WriteString(f.Where + ": ")
			if f.Path != "" {
				out.WriteString(f.Path + ": ")
			}
			out.WriteString(f.Problem + "\n")
			if f.Hint != "" {
				out.WriteString("hint: " + f.Hint + "\n")
			}
		}
	}
	return out.String()
}
