package boatfile

import (
	"fmt"
	"slices"
	"strings"

	"foilwright/boat"
	"foilwright/quantity"
)

// limited is what of a boat a limit may name.
type limited int

const (
	wholeBoat limited = iota // nothing of her
	aFoil
	aFlap // a foil that has one
	aSail
)

// limitKind is a limit with its dimension and what of a boat it may name.
type limitKind struct {
	kind boat.LimitKind
	want quantity.Dimension
	of   limited
}

var limitKinds = [...]limitKind{
	{boat.LimitHeel, quantity.Angle, wholeBoat}, {boat.LimitPitch, quantity.Angle, wholeBoat}, {boat.LimitLeeway, quantity.Angle, wholeBoat},
	{boat.LimitRideHeight, quantity.Length, wholeBoat}, {boat.LimitTipDepth, quantity.Length, aFoil}, {boat.LimitSheetLoad, quantity.Force, aSail},
	{boat.LimitCavitation, quantity.Number, aFoil}, {boat.LimitVentilation, quantity.Angle, aFoil},
	{boat.LimitRootBending, quantity.Moment, aFoil}, {boat.LimitHingeMoment, quantity.Moment, aFlap}, {boat.LimitSpeed, quantity.Speed, wholeBoat},
	{boat.LimitSailLoad, quantity.Number, aSail},
}

// limits reads bounds: a limit by name, or a part's by the part and the name.
func (b *builder) limits(f *limitsForm, path string) []boat.Limit {
	var out []boat.Limit
	for i := range f.items {
		item := &f.items[i]
		at := site{&node{text: item.name, place: item.place}, below(path, item.name)}
		k, part, ok := limitNamed(item.name)
		if !ok {
			var names []string
			for _, k := range limitKinds {
				names = append(names, k.kind.String())
			}
			b.faultAt(&at, "no limit is called so", nearest(item.name, names))
			continue
		}
		if problem, hint := b.cannotLimit(k, part); problem != "" {
			b.faultAt(&at, problem, hint)
			continue
		}
		l := boat.Limit{Kind: k.kind, Part: part}
		l.Lower, l.Upper = b.ranged(&item.part, k.want)
		out = append(out, l)
	}
	return out
}

// limitNamed returns a limit by its name in a file, and the part before it.
func limitNamed(text string) (k limitKind, part string, ok bool) {
	for _, k := range limitKinds {
		if text == k.kind.String() {
			return k, "", true
		}
		if part, ok := strings.CutSuffix(text, " "+k.kind.String()); ok {
			return k, part, true
		}
	}
	return limitKind{}, "", false
}

// cannotLimit tells why a limit means nothing for a part, and what would do; empty
// words where it means something. A part that has faults of its own counts as there.
func (b *builder) cannotLimit(k limitKind, part string) (problem, hint string) {
	foils, sails := b.form.Foils.names(), b.form.Sails.names()
	flaps := 0
	for i := range b.boat.Foils {
		f := &b.boat.Foils[i]
		if foils = append(foils, f.Name); (part == "" || part == f.Kind || part == f.Name) && f.HasFlap() {
			flaps++
		}
	}
	switch {
	case k.of == wholeBoat && part != "":
		return fmt.Sprintf("%s is the whole boat's, and not that of %q", k.kind, part), "write " + k.kind.String()
	case k.of == aSail && part != "" && !slices.Contains(sails, part):
		return fmt.Sprintf("no sail is called %q", part), nearest(part, sails)
	case (k.of == aFoil || k.of == aFlap) && part != "" && !slices.Contains(foils, part):
		return fmt.Sprintf("no foil is called %q", part), nearest(part, foils)
	case k.of == aFlap && flaps == 0 && len(b.faults) == 0:
		return "there is no flap whose moment could be limited", "leave it out, or give the foil a flap"
	}
	return "", ""
}
