package sail

import (
	"math"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// shape cuts the sails of a set into strips in the boat frame: a luff leaning
// aft from the tack, chords straight aft of it, nodes at (1−cos θ)/2 of the luff
// for even θ, middles at the angular midpoints. Loads act at the quarter chord
// (the sheeting angle's effect on its place is left out). Wakes, and the
// directions of the loads, follow the luff: a sheeted chord lies so nearly along
// the wind that end-on its quarter chord hides behind the luff.
func (w *Workspace) shape(b *boat.Boat, set int) {
	now := shape{b, set, StripsOf(w)}
	if w.shaped == now {
		return
	}
	w.shaped, w.placed = now, place{speed: si.Speed(math.NaN())}
	w.density = math.NaN()
	var sails []int
	if set >= 0 {
		sails = b.Sets[set].Sails
	}
	n := now.strips
	w.sails = grow(w.sails, len(sails))
	w.strips = grow(w.strips, n*len(sails))
	w.wake.nodes = grow(w.wake.nodes, (n+1)*len(sails))
	w.wake.segments = grow(w.wake.segments, len(w.strips))
	w.wake.first = grow(w.wake.first, len(w.strips))
	w.wake.flow = grow(w.wake.flow, len(w.strips))
	w.circulation = grow(w.circulation, len(w.strips))
	w.downwash = grow(w.downwash, len(w.strips))
	w.incidence = grow(w.incidence, len(w.strips))
	w.sections = grow(w.sections, len(w.strips))
	w.margins = grow(w.margins, len(sails))
	for i, index := range sails {
		s := &b.Sails[index]
		w.sails[i] = rigged{
			sail: s, first: i * n, last: (i + 1) * n,
			luff: frame.Vec[frame.Boat]{X: -s.Lean.Sin(), Z: s.Lean.Cos()},
		}
		w.cut(i, n, b.Model.WakeCore)
	}
}

// cut writes the strips and nodes of one sail.
func (w *Workspace) cut(sail, n int, core float64) {
	r := &w.sails[sail]
	s := r.sail
	lean := s.Lean.Cos()
	p := newPlan(s.Foot, s.Luff*lean, s.Area)
	share := func(step float64) float64 { return (1 - math.Cos(math.Pi*step/float64(n))) / 2 }
	for k := range n + 1 {
		d := &w.wake.nodes[sail*(n+1)+k]
		*d = node{core: core * p.chord(share(float64(k))), sail: sail}
	}
	for k := range n {
		from, eta, to := share(float64(k)), share(float64(k)+0.5), share(float64(k)+1)
		w.wake.first[r.first+k] = sail*(n+1) + k
		w.strips[r.first+k] = strip{
			sail: sail, eta: eta,
			chord:  p.chord(eta) * lean,
			area:   p.below(to) - p.below(from),
			middle: s.Tack.Add(r.luff.Times(s.Luff * eta)).Add(frame.Vec[frame.Boat]{X: -p.chord(eta) / 4}),
			behind: p.chord(eta) / 4,
			luff:   [3]float64{s.Luff * from, s.Luff * eta, s.Luff * to},
		}
	}
}

// place sets the strips into the wind and factors the wake's equations.
func (w *Workspace) place(b *boat.Boat, s boat.State, wind fluid.Wind) {
	now := place{s.Attitude, s.Speed, wind}
	if w.placed == now && w.leansStill() {
		return
	}
	w.placed, w.density, w.driven = now, math.NaN(), w.driven[:0]
	pose, air := s.Attitude.Pose(), wind.Over(s.Speed)
	for i := range w.sails {
		w.sails[i].stand(pose)
	}
	w.reference(pose, &air)
	for i := range w.sails {
		w.sails[i].meet(&air, b.Model.SailDrag)
	}
	aft := pose.Vec(frame.Vec[frame.Boat]{X: -1})
	for i := range w.strips {
		t := &w.strips[i]
		r := &w.sails[t.sail]
		t.at = r.on(t.luff[1]).Add(aft.Times(t.behind))
		t.span = r.up.Times(t.luff[2] - t.luff[0])
		t.wind = air.At(t.at.Z)
		aft, port := r.across(t.wind)
		t.normal = math.Sqrt(aft*aft + port*port)
		t.freer = -w.windward * math.Atan2(port*r.aft-aft*r.port, aft*r.aft+port*r.port)
	}
	w.project(b.Model.Gap)
	if w.lean() {
		w.wake.take()
		w.wake.lines.Beside()
		w.solved = true
	} else {
		w.solved = w.wake.factor()
	}
}

// stand sets where the luff stands.
func (r *rigged) stand(pose frame.Pose[frame.Track, frame.Boat]) {
	r.tack, r.up = pose.Point(r.sail.Tack), pose.Vec(r.luff)
	r.astern = pose.Vec(frame.Vec[frame.Boat]{X: -r.luff.Z, Z: r.luff.X})
	r.abeam = pose.Vec(frame.Vec[frame.Boat]{Y: 1})
	r.about = r.on(r.sail.Luff / 2)
}

// on returns the point so far up the luff, m.
func (r *rigged) on(luff float64) frame.Point[frame.Track] { return r.tack.Add(r.up.Times(luff)) }

// across returns the parts of a velocity in the plane normal to the luff: aft
// along the chords, and to port.
func (r *rigged) across(v frame.Vec[frame.Track]) (aft, port float64) {
	return v.Dot(r.astern), v.Dot(r.abeam)
}

// meet sets the wind at mid-height and what the coefficients say at its angle.
func (r *rigged) meet(air *fluid.Stream, dragFactor float64) {
	r.wind = air.At(r.about.Z)
	aft, port := r.across(r.wind)
	r.aft, r.port = aft, port
	r.angle = si.Angle(math.Atan2(math.Abs(port), aft))
	r.largest = LargestLift(r.sail.Coefficients, r.angle)
	r.drag, r.dragFactor = SectionDrag(r.sail.Coefficients, r.angle), dragFactor
}

// reference sets the direction of the wakes, that of the horizontal apparent
// wind at the mean mid-height of the set's sails by area, and the side that it
// comes from: that of the boat's centreplane. In no wind at all the wakes drift
// aft.
func (w *Workspace) reference(pose frame.Pose[frame.Track, frame.Boat], over *fluid.Stream) {
	height, area := 0.0, 0.0
	for i := range w.sails {
		r := &w.sails[i]
		height += r.sail.Area * r.about.Z
		area += r.sail.Area
	}
	air := frame.Vec[frame.Track]{X: -1}
	if area > 0 {
		if v := over.At(height / area); v.Norm() > 1e-9 {
			air = v
		}
	}
	w.windward = 1
	if pose.Turn.Inverse().Apply(air).Y > 0 {
		w.windward = -1
	}
	w.wake.along = air.Unit()
	w.wake.across = frame.Vec[frame.Track]{Z: 1}.Cross(w.wake.along)
}

// project writes nodes and segments into the plane normal to the wake. The
// mirror lies at (1 − gap) of the height of the lowest tack: gap 1 is the water
// itself, gap 0 seals that sail's foot. It never lies above a node: a foot that
// dips counts as sealed.
func (w *Workspace) project(gap float64) {
	k := &w.wake
	lowest, tack := math.Inf(1), math.Inf(1)
	for i := range w.strips {
		t := &w.strips[i]
		r := &w.sails[t.sail]
		for end := range 2 {
			if end == 0 && i > r.first {
				continue // the upper one of the strip below
			}
			q := r.on(t.luff[2*end])
			d := &k.nodes[k.first[i]+end]
			d.t, d.z = frame.Vec[frame.Track](q).Dot(k.across), q.Z
			lowest = min(lowest, q.Z)
		}
		st, sz := t.span.Dot(k.across), t.span.Z
		length := math.Sqrt(st*st + sz*sz)
		station := r.on(t.luff[1])
		s := segment{
			t: frame.Vec[frame.Track](station).Dot(k.across), z: station.Z,
			length: length, half: liftSlope * t.chord / 2, sail: t.sail,
		}
		if length > 0 {
			s.mt, s.mz = sz/length, -st/length
		}
		k.segments[i] = s
	}
	for i := range w.sails {
		tack = min(tack, w.sails[i].tack.Z)
	}
	k.mirror = 0
	if len(w.strips) > 0 {
		k.mirror = min((1-gap)*tack, lowest)
	}
}
