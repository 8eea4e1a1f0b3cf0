package web

import (
	"encoding/json"
	"errors"
)

// mostPast is the most that a log of revisions may hold, in bytes of text.
const mostPast = 4 << 20

// pastLog is the log of revisions as it is kept from one start to the next:
// each text once, and the revisions as pairs of numbers of texts.
type pastLog struct {
	Rodwork int      `json:"rodwork"` // the version of this log
	Texts   []string `json:"texts"`
	Now     [2]int   `json:"now"`
	Past    [][2]int `json:"past"`
	Future  [][2]int `json:"future"`
}

// pack writes a log, with the oldest revisions left out where it grows too long.
func pack(now texts, past, future []texts) ([]byte, error) {
	for {
		l := pastLog{Rodwork: 1}
		size, known := 0, map[string]int{}
		one := func(s string) int {
			n, ok := known[s]
			if !ok {
				n = len(l.Texts)
				known[s], l.Texts, size = n, append(l.Texts, s), size+len(s)
			}
			return n
		}
		pair := func(t texts) [2]int { return [2]int{one(t.piece), one(t.shop)} }
		l.Now = pair(now)
		for _, t := range past {
			l.Past = append(l.Past, pair(t))
		}
		for _, t := range future {
			l.Future = append(l.Future, pair(t))
		}
		switch {
		case size <= mostPast:
			return json.Marshal(l)
		case len(past) > 0:
			past = past[(len(past)+1)/2:]
		case len(future) > 0:
			future = nil
		default:
			return nil, errors.New("the texts are too long to be kept for taking back")
		}
	}
}

// unpack reads a log.
func unpack(b []byte) (now texts, past, future []texts, err error) {
	var l pastLog
	if len(b) > 3*mostPast {
		return now, nil, nil, errors.New("it is too long")
	}
	if err := json.Unmarshal(b, &l); err != nil {
		return now, nil, nil, err
	}
	if l.Rodwork != 1 || len(l.Past) > most || len(l.Future) > most {
		return now, nil, nil, errors.New("it is not one that this program wrote")
	}
	pair := func(p [2]int) texts {
		for _, n := range p {
			if n < 0 || n >= len(l.Texts) {
				err = errors.New("it names a text that it does not have")
				return texts{}
			}
		}
		return texts{l.Texts[p[0]], l.Texts[p[1]]}
	}
	now = pair(l.Now)
	for _, p := range l.Past {
		past = append(past, pair(p))
	}
	for _, p := range l.Future {
		future = append(future, pair(p))
	}
	return now, past, future, err
}

// recall takes up what an earlier start left behind. What was changed while no
// page was open is a revision too, and can be taken back.
func (s *Session) recall() {
	if s.cfg.Recall == nil {
		return
	}
	b, err := s.cfg.Recall()
	if err != nil || len(b) == 0 {
		return // nothing was kept
	}
	now, past, future, err := unpack(b)
	if err != nil {
		s.word = "What could be taken back before is lost: its log cannot be read."
		return
	}
	if is := textsOf(s.loaded.Source); now != is {
		past, future = append(past, now), nil
	}
	s.past, s.future = past, future
}

// remember keeps the log of revisions for the next start. That it could not be
// kept is said on the page, and the edit stands. The lock is held.
func (s *Session) remember() {
	if s.cfg.Remember == nil {
		return
	}
	b, err := pack(textsOf(s.loaded.Source), s.past, s.future)
	if err == nil {
		err = s.cfg.Remember(b)
	}
	s.word = ""
	if err != nil {
		s.word = "This can be taken back only until the program ends: " + err.Error() + "."
	}
}
