package report

import (
	"fmt"
	"strings"

	"foilwright/quantity"
	"foilwright/si"
	"foilwright/study"
	"foilwright/trim"
)

// Asked says in a line what is asked, and in which conditions.
func Asked(q study.Question) string {
	switch q := q.(type) {
	case *study.Odds:
		return oddsAsked(q)
	case *study.Why:
		of := q.Figure
		if of == "" {
			of = "progress"
		}
		words := "why " + of + " differs, " + sailAsked(&q.Sailing)
		if q.Pairs {
			words += "; pairs of causes"
		}
		return words
	case *study.Polar:
		if q.TakeOff {
			return "how she takes off"
		}
		return "polar, " + winds(q.WindSpeeds) + over(q.WindAngles) + seaAsked(&q.Sailing)
	case *study.Trim:
		if q.Per {
			return "best trim and what each figure is worth, " + sailAsked(&q.Sailing)
		}
		return "best trim, " + sailAsked(&q.Sailing)
	case *study.View:
		return "views, " + sailAsked(&q.Sailing)
	case *study.Compare:
		return "boats side by side, " + sailAsked(&q.Sailing)
	}
	return q.Verb()
}

func oddsAsked(q *study.Odds) string {
	s := q.Sailing
	words := "odds, "
	if q.WindSpread != "" {
		words += "true wind " + spreadAsked(q.WindSpread) + ", " + aimAsked(&s) + seaAsked(&s)
	} else {
		words += sailAsked(&s)
	}
	samples := q.Samples
	switch {
	case q.Until > 0 && samples == 0:
		samples = study.MostUntil
	case samples == 0:
		samples = study.DefaultSamples
	}
	if q.Until > 0 {
		words += fmt.Sprintf("; until chances are known to %s, %d samples at most", perCent(q.Until), samples)
	} else {
		words += fmt.Sprintf("; %d samples", samples)
	}
	if len(q.Winds) > 0 {
		words += "; bands over " + winds(q.Winds)
	}
	if q.Anchor != "" {
		words += "; anchored to " + q.Anchor
	}
	return words
}

// spreadAsked says a spread wind in knots, and as it was written where it is no
// deviation.
func spreadAsked(says string) string {
	v, err := quantity.Parse(says, quantity.Speed)
	if err != nil || v.Spread != quantity.Normal {
		return says
	}
	one := quantity.Decimals(1)
	return quantity.Format(v.Likely, quantity.Speed, "kn", one) + " ± " + quantity.Format(v.Deviation, quantity.Speed, "kn", one)
}

// sailAsked says the wind and what is made most of.
func sailAsked(q *study.Sailing) string {
	return winds(q.WindSpeeds) + ", " + aimAsked(q) + seaAsked(q)
}

func aimAsked(q *study.Sailing) string {
	if len(q.WindAngles) > 0 {
		return strings.TrimPrefix(over(q.WindAngles), " ")
	}
	if q.Aim == trim.Leeward {
		return trim.Leeward.String()
	}
	return trim.Windward.String()
}

func seaAsked(q *study.Sailing) string {
	words := ""
	if q.WindFrom == "starboard" {
		words += ", wind from starboard"
	}
	if q.WaveHeight > 0 {
		words += ", waves of " + metres(q.WaveHeight)
	}
	return words
}

// winds says wind speeds: a few one by one, more as a range.
func winds(all []si.Speed) string {
	var values []float64
	for _, w := range all {
		values = append(values, float64(w))
	}
	return "true wind " + several(values, func(v float64) string { return quantity.Format(v, quantity.Speed, "kn", quantity.Decimals(1)) })
}

func over(all []si.Angle) string {
	if len(all) == 0 {
		return ""
	}
	var values []float64
	for _, a := range all {
		values = append(values, float64(a))
	}
	return " at " + several(values, func(v float64) string { return quantity.Format(v, quantity.Angle, "deg", quantity.Decimals(0)) })
}

// mostNamed is how many values are said one by one.
const mostNamed = 4

func several(values []float64, format func(float64) string) string {
	if len(values) == 0 {
		return "of no speed"
	}
	if len(values) > mostNamed {
		return fmt.Sprintf("%s to %s (%d)", format(values[0]), format(values[len(values)-1]), len(values))
	}
	var words []string
	for _, v := range values {
		words = append(words, format(v))
	}
	return strings.Join(words, ", ")
}

// Left says how long work still takes, s.
func Left(seconds float64) string {
	if seconds > 90 {
		return quantity.Format(seconds/60, quantity.Number, "", quantity.Decimals(0)) + " min left"
	}
	return quantity.Format(seconds, quantity.Number, "", quantity.Decimals(0)) + " s left"
}
