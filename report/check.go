package report

import "foilwright/study"

func (p *page) check(r *study.CheckResult) { _ = r }

// Faults returns every fault of a check's files, in the house's style.
func Faults(r *study.Result) string { _ = r; return "" }
