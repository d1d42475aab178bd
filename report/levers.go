package report

import "foilwright/study"

func (p *page) levers(r *study.LeversResult) { _ = r }
func (p *page) tow(r *study.TowResult)       { _ = r }
