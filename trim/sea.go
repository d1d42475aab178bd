package trim

import (
	"math"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/si"
)

// The rule by which a sea asks for room, so that boats are compared in the same
// sea. Its two figures are judgement, and the same for every boat.
const (
	// followFrequency is that of the waves, rad/s as they are met, which a flying
	// boat half follows and half passes through. Judgement: met every 2.5 s. A flap
	// and a helm correct height within some half second; longer boats are slower.
	followFrequency = 2 * math.Pi / 2.5
	// oneWaveIn is how many waves pass for one that needs more room. Judgement,
	// beside the usual criteria for a wet deck and for a screw that comes out, 3 to
	// 10 % of waves (NORDFORSK 1987, from memory).
	oneWaveIn = 20.0
)

// Names of the limits that a sea sets.
const (
	rideInSea = "ride height in the sea"
	tipInSea  = "tip depth in the sea"
)

// TheSea as a limit is both of them at once: where there is no answer in a sea and
// there is one in a calm, it is the reason.
const TheSea = "the sea"

// SeaLimits returns the names of the limits that a sea sets.
func SeaLimits() []string { return []string{rideInSea, tipInSea} }

// SeaRoom is what a sea asks of a boat at her speed and angle.
//
// A boat follows waves that she meets slowly (contouring) and passes straight
// through those that she meets fast (platforming). Between the two her height over
// the water is taken as a second-order system whose damping is 1/√2 of critical,
// which follows without overshoot of its response: of a wave met at the frequency
// ωe she misses the share r²/√(1+r⁴), phase and all, r = ωe over that of a wave met
// every 2.5 s. The wave that is counted has an amplitude that one in twenty exceeds
// (fluid.Sea.Exceeded); the room is the share of it that she misses. By so much the hulls fly at least above
// the undisturbed water, so that the crest passes under them, and by so much at
// least free tips lie under it, so that the trough does not bare them.
//
// It leaves out loads: drag added in waves, lift that comes and goes, orbital
// motion, the boat's own pitch, and seas that do not run with the wind. The boat's
// own limits hold besides.
type SeaRoom struct {
	Height      float64  `json:"wave_height_m"` // significant
	Period      float64  `json:"wave_period_s"` // of the peak, at a fixed place
	Length      float64  `json:"wave_length_m"`
	Encounter   *float64 `json:"encounter_period_s"` // at which the boat meets them; nil where she runs with them
	Overtaking  Overtake `json:"waves"`
	NotFollowed float64  `json:"share_not_followed"`
	Amplitude   float64  `json:"amplitude_m"` // exceeded by one wave in twenty
	Room        float64  `json:"room_m"`      // least ride height, and least depth of free tips
}

// Overtake tells who passes whom.
type Overtake string

// Who passes whom.
const (
	WavesPass Overtake = "pass the boat"
	BoatPass  Overtake = "are overtaken"
)

// roomIn returns what a sea asks for at a speed and true wind angle.
func roomIn(s fluid.Sea, speed si.Speed, windAngle si.Angle) SeaRoom {
	met := s.Encounter(speed, windAngle)
	r := SeaRoom{
		Height: s.Height, Period: s.Period, Length: s.Length(), Overtaking: WavesPass,
		NotFollowed: notFollowed(met), Amplitude: s.Exceeded(oneWaveIn),
	}
	if met < 0 {
		r.Overtaking = BoatPass
	}
	if period := 2 * math.Pi / math.Abs(met); !math.IsInf(period, 0) {
		r.Encounter = &period
	}
	r.Room = r.NotFollowed * r.Amplitude
	return r
}

// notFollowed returns the share of a wave met at a frequency, rad/s, that the boat
// does not follow.
func notFollowed(met float64) float64 {
	r := met / followFrequency
	return r * r / math.Sqrt(1+r*r*r*r)
}

// room is roomIn's last figure alone, m: 0 in a calm.
func (r *Request) room(speed si.Speed, windAngle si.Angle) float64 {
	if r.Sea.Calm() {
		return 0
	}
	return notFollowed(r.Sea.Encounter(speed, windAngle)) * r.Sea.Exceeded(oneWaveIn)
}

// seaRows adds what the sea asks for: of hulls that must stay dry, and of free
// tips that must stay under. A hull that may be in the water (a lower limit below
// 0), and tips that may fly, are asked nothing: the boat's limits say that her crew
// lives with it.
func (p *problem) seaRows(rows []row) []row {
	r := p.request
	if r.Sea.Calm() || r.relaxed(TheSea) {
		return rows
	}
	if p.keepsDry() && !r.relaxed(rideInSea) {
		rows = p.hullRows(rows, row{limit: rideInSea, unit: "m", size: 1, figure: seaHull, upper: math.Inf(1)})
	}
	if r.relaxed(tipInSea) {
		return rows
	}
	for _, l := range p.way.limits {
		if l.Kind == boat.LimitTipDepth && l.Lower >= 0 && !r.relaxed(l.Name()) {
			rows = p.tipsOf(rows, l, row{limit: tipInSea, unit: "m", size: 1, figure: seaTip}, 0, math.Inf(1))
		}
	}
	return rows
}

// keepsDry tells whether the hulls must stay out of the water.
func (p *problem) keepsDry() bool {
	for _, l := range p.way.limits {
		if l.Kind == boat.LimitRideHeight {
			return l.Lower >= 0 && !p.request.relaxed(l.Name())
		}
	}
	return true
}

// tell puts a row's figure as a row of limits: what the sea asks for is told as
// the height or depth itself, against the room at this speed and angle.
func (p *problem) tell(r *row, value float64) LimitRow {
	t := r.told(value)
	if r.figure == seaHull || r.figure == seaTip {
		t.Value += p.room
		*t.Lower += p.room
	}
	return t
}

// TellSea puts what a sea asks of a boat in the state of a result into it; nothing in a
// calm.
func (res *Result) TellSea(sea fluid.Sea) {
	res.Sea = nil
	if !sea.Calm() {
		room := roomIn(sea, res.Speed, res.TrueWindAngle)
		res.Sea = &room
	}
}
