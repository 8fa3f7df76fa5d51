package chain

import (
	"strings"

	"stillair/gui/look"
	"stillair/gui/picture"
)

// Follow goes along the error: from the first broken link to all that it
// spoils, as far as counters and marker, a sentence each. What is mended may
// have left counters wrong; then it goes along those. It is nil where nothing
// is wrong or the truth is hidden.
func (s *Story) Follow() (steps []Step) {
	verdicts := s.Judge()
	first := picture.Link(0)
	for i := range verdicts {
		if verdicts[i].Stands == picture.Broken {
			first = picture.Link(i)
			break
		}
	}
	for of := first; of < picture.LinkCount; of++ {
		if words := s.followed(of, &verdicts[of]); words != "" {
			steps = append(steps, Step{of, words})
		}
	}
	return steps
}

// followed is the sentence of one link on the way of the error, "" off it.
func (s *Story) followed(of picture.Link, v *Verdict) string {
	switch v.Stands {
	case picture.Broken:
		if more := s.beside(of, v.Flag); more != "" {
			return look.Textf(look.FollowBrokenMore, v.Flag, more)
		}
		return look.Textf(look.FollowBroken, v.Flag)
	case picture.Carries:
		if more := s.instead(of); more != "" {
			return look.Textf(look.FollowCarries, title(of), more)
		}
		return look.Textf(look.FollowOn, title(of))
	}
	return ""
}

// beside is what a flag does not say yet of the values at its link.
func (s *Story) beside(of picture.Link, flag string) string {
	now, right := s.tell(of, &s.Now), s.tell(of, s.Truth)
	switch {
	case now != right && strings.Contains(flag, right):
		return ""
	case now != right && strings.Contains(flag, now):
		return look.Textf(look.OffRight, right)
	}
	return s.instead(of)
}

// instead says what stands at a link and what ought to, with what has come of
// it; "" where both print alike.
func (s *Story) instead(of picture.Link) string {
	now, right, sum := s.tell(of, &s.Now), s.tell(of, s.Truth), s.wrong(of, picture.Carries)[0]
	if !winds(of) && !standing[of] {
		sum = ""
	}
	switch {
	case now == right && sum == "":
		return ""
	case now == right:
		return look.Textf(look.FollowSum, sum)
	case sum == "":
		return look.Textf(look.FollowInstead, now, right)
	}
	return look.Textf(look.FollowInsteadSum, now, right, sum)
}
