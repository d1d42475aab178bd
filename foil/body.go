package foil

import (
	"math"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/section"
	"foilwright/si"
)

// A body's volume and surface are those of the spheroid with its length and
// diameter: volume π·l·d²/6; surface by Knud Thomsen's mean, good to 1.2 %.
const thomsen = 1.6075

// BodyVolume returns a body's volume, m³.
func BodyVolume(d *boat.Body) float64 { return math.Pi / 6 * d.Length * d.Diameter * d.Diameter }

// BodySurface returns a body's surface, m².
func BodySurface(d *boat.Body) float64 {
	a, c := d.Diameter/2, d.Length/2
	mean := (math.Pow(a*a, thomsen) + 2*math.Pow(a*c, thomsen)) / 3
	return 4 * math.Pi * math.Pow(mean, 1/thomsen)
}

// drowned returns how much of a body is under water, 0 to 1: the share of a
// sphere's volume below the surface, its middle at a height, m.
func drowned(height, radius float64) float64 {
	if radius == 0 {
		return 0
	}
	h := math.Min(1, math.Max(-1, -height/radius))
	return (2 + 3*h - h*h*h) / 4
}

// bodyMemory is what no state changes of a body, and its friction as it was last asked
// for.
type bodyMemory struct {
	onFoil            frame.Point[boat.Local] // where a foil carries its middle, m
	surface, volume   float64                 // m², m³
	form              float64                 // factor on the plate's friction
	reynolds, onPlate float64
}

func rememberBody(b *boat.Boat, body int) bodyMemory {
	d := &b.Bodies[body]
	m := bodyMemory{surface: BodySurface(d), volume: BodyVolume(d)}
	if d.Foil >= 0 {
		m.onFoil, _ = b.Foils[d.Foil].Pieces[d.Piece].Path.At(d.Share)
	}
	if d.Length > 0 {
		m.form = section.BodyFormFactor(d.Diameter / d.Length)
	}
	return m
}

// friction returns the drag coefficient on the surface at a Reynolds number on the length.
func (m *bodyMemory) friction(reynolds float64) float64 {
	if m.reynolds != reynolds || m.onPlate == 0 {
		m.reynolds, m.onPlate = reynolds, section.PrandtlSchlichting(reynolds)
	}
	return m.onPlate * m.form
}

// BodyPlace is [boat.Boat.BodyPlace] in a state, and MassPlace is [boat.Foil.MassPlace]:
// of a workspace that notes where foils stand. Nil notes nothing.
func BodyPlace(b *boat.Boat, s *boat.State, body int, w *Workspace) frame.Point[frame.Boat] {
	d := &b.Bodies[body]
	if w == nil || d.Foil < 0 {
		return b.BodyPlace(body, s.Settings)
	}
	w.stand(b, s)
	return w.poses[d.Foil].Point(w.bodies[body].onFoil)
}

// MassPlace returns where a foil's own mass is: see BodyPlace.
func MassPlace(b *boat.Boat, s *boat.State, foil int, w *Workspace) frame.Point[frame.Boat] {
	if w == nil {
		return b.Foils[foil].MassPlace(s.Settings)
	}
	w.stand(b, s)
	return w.poses[foil].Point(w.masses[foil])
}

// appendBodies appends drag and buoyancy of the bodies under water: friction of
// the turbulent line over the spheroid's surface with Hoerner's form factor for
// streamlined bodies. Leaves out lift of a body at incidence, and the
// interference with the foil that carries it.
func (w *Workspace) appendBodies(b *boat.Boat, s *boat.State, water fluid.Water, items []boat.Item) []boat.Item {
	if len(b.Bodies) == 0 {
		return items
	}
	trackFromBoat := s.Attitude.Pose()
	for i := range b.Bodies {
		d, known := &b.Bodies[i], &w.bodies[i]
		place := trackFromBoat.Point(BodyPlace(b, s, i, w))
		wet := drowned(place.Z, d.Diameter/2)
		if wet == 0 || d.Length == 0 {
			continue
		}
		cf := known.friction(water.Reynolds(s.Speed, d.Length))
		drag := water.DynamicPressure(s.Speed) * cf * b.Model.Friction * known.surface * wet
		lift := water.Density * si.Gravity * known.volume * wet
		items = append(items,
			boat.Item{Part: d.Name, Cause: boat.BodyDrag, Load: frame.ForceAt(frame.Vec[frame.Track]{X: -drag}, place)},
			boat.Item{Part: d.Name, Cause: boat.Buoyancy, Load: frame.ForceAt(frame.Vec[frame.Track]{Z: lift}, place)})
	}
	return items
}
