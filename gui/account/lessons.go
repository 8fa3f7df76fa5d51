package account

import (
	"math"
	"sort"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim/debrief"
)

// mostBlamed is how many links have a sentence of their own.
const mostBlamed = 3

// lessons are sentences that the figures support, the most important first.
func (s *Story) lessons(a *picture.Account, rows []Part, p *debrief.Point) (all []picture.Lesson) {
	if a.NM() < 0.05 && s.after == nil {
		all = append(all, picture.Lesson{Head: look.Text(look.AccountNothing), Body: look.Text(look.AccountNothingBody)})
	}
	order := make([]int, len(a.Parts))
	for i := range order {
		order[i] = i
	}
	cost := func(i int) int { return int(math.Abs(float64(a.Parts[i].Printed[2]))) }
	sort.SliceStable(order, func(i, j int) bool { return cost(order[i]) > cost(order[j]) })
	for n, i := range order {
		if n == mostBlamed || cost(i) == 0 {
			break
		}
		head := look.AccountCost
		if a.Parts[i].Printed[2] < 0 {
			head = look.AccountGave
		}
		t := links[rows[i].ID]
		body := look.Text(t.advice)
		if note := a.Parts[i].Note; note != "" && rows[i].ID != "earth" {
			body = look.Capital(note) + ". " + body
		}
		all = append(all, picture.Lesson{Head: look.Textf(head, look.Text(t.subject), tenths(cost(i))), Body: body})
	}
	if p.Tick == s.told.Report.Last.Tick && s.after == nil {
		all = append(all, s.best(a)...)
		all = append(all, s.together()...)
	}
	return append(all, s.reset(p.Tick)...)
}

// best is the link that would have spared most, put right alone.
func (s *Story) best(a *picture.Account) []picture.Lesson {
	var best *debrief.Line
	total := a.NM()
	for i := range s.told.IfOnly {
		if l := &s.told.IfOnly[i]; best == nil || l.NM() < best.NM() {
			best = l
		}
	}
	if best == nil || math.Abs(best.NM()-total) < 0.05 {
		return nil
	}
	head, body := look.AccountBest, look.AccountBestBody
	if best.NM() > total {
		head, body = look.AccountHidden, look.AccountHiddenBody
	}
	return []picture.Lesson{{Head: look.Textf(head, look.Lower(look.Text(links[best.ID].subject)), miles(best.NM()), miles(total)), Body: look.Text(body)}}
}

// together is what the links make of one another.
func (s *Story) together() []picture.Lesson {
	in := s.told.Report.Ground.Interaction.NM()
	if in < 0.1 {
		return nil
	}
	return []picture.Lesson{{Head: look.Textf(look.AccountTogether, miles(in)), Body: look.Text(look.AccountTogetherBody)}}
}

// reset tells what the last setting of the counters did.
func (s *Story) reset(tick int64) []picture.Lesson {
	line := s.flown()
	for i := len(line) - 1; i > 0; i-- {
		if line[i].Jump && line[i].Minute <= minutes(tick) {
			at := s.plan.Start.Add(s.told.View.Marks[i].Elapsed)
			return []picture.Lesson{{
				Head: look.Textf(look.AccountResetHead, units.TimeText(at)),
				Body: look.Textf(look.AccountResetBody, miles(line[i-1].NM), miles(line[i].NM)),
			}}
		}
	}
	return nil
}

func miles(nm float64) string { return units.Figure(nm, 1) }
func tenths(n int) string     { return units.Figure(float64(n)/10, 1) }
