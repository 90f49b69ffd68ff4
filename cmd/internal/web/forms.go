package web

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	_ "embed"
	"errors"
	"html/template"
	"math"
	"net/http"
	"net/url"
	"slices"
	"sync"

	"frostward/climate"
	"frostward/cmd/internal/page"
)

//go:embed forms.tmpl
var formSource string

// forms are parsed when they are first asked for: only serve does.
var forms = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("forms").Parse(formSource))
})

// formPage is what the templates of forms are given.
type formPage struct {
	Choices Choices
	Was     url.Values // what the visitor had filled in
	Today   string
	From    string   // the page that the forms stand on
	Once    string   // marks this page's forms: what comes twice is stored once
	Done    string   // a sentence on what has been written
	CanUndo bool     // and it can be taken back
	Mistake *Mistake // what is to be put right
	Answer  template.HTML
	Better  string // a day to try instead
}

// Value returns what a field held before.
func (f formPage) Value(field string) string { return f.Was.Get(field) }

// Wrong says whether a field is the one to put right.
func (f formPage) Wrong(field string) bool { return f.Mistake != nil && f.Mistake.Field == field }

// done says what a form did, by the word that its answer leads back with.
var done = map[string]string{
	"morning": "The reading is in the log.",
	"evening": "The evening is in the log, and the garden's page reckons with it.",
	"did":     "It is in the diary.",
	"later":   "Put off: it is asked again tomorrow.",
	"keep":    "The planting is in the plan.",
	"move":    "The planting is moved to its better day.",
	"undo":    "What was written last is taken back.",
	"again":   "This form had been sent before: it is stored once.",
}

func (s *Server) page(w http.ResponseWriter, r *http.Request, from string) (formPage, bool) {
	c, err := s.garden.Choices()
	if err != nil {
		s.fail(w, r, err)
		return formPage{}, false
	}
	p := formPage{Choices: c, Was: url.Values{}, Today: s.today().String(), From: from, Once: rand.Text()}
	if k, err := r.Cookie(spotCookie); err == nil {
		if spot, err := url.QueryUnescape(k.Value); err == nil {
			p.Was.Set("spot", spot) // the one logged for last
		}
	}
	word := r.URL.Query().Get("done")
	p.Done, p.CanUndo = done[word], word != "" && word != "again" && word != "undo" && word != "later"
	return p, true
}

// Spot is the spot to log for unless another is chosen: that of the last time, or the first.
func (f formPage) Spot() string {
	if was := f.Value("spot"); slices.Contains(f.Choices.Spots, was) || len(f.Choices.Spots) == 0 {
		return was
	}
	return f.Choices.Spots[0]
}

// Unit is the sign of the garden's unit of temperature.
func (f formPage) Unit() string { return f.Choices.Units.Unit() }

// Low and High are the limits of a temperature in that unit.
func (f formPage) Low() float64  { return f.Choices.Units.Value(lowest) }
func (f formPage) High() float64 { return f.Choices.Units.Value(highest) }

// again shows a form with what is to be put right, or passes on a graver error.
func (s *Server) again(w http.ResponseWriter, r *http.Request, title, name string, p formPage, err error) {
	if !errors.As(err, &p.Mistake) {
		s.fail(w, r, err)
		return
	}
	s.shell(w, http.StatusUnprocessableEntity, title, name, p)
}

const (
	logTitle   = "Log a reading"
	tryTitle   = "Try a planting"
	plantTitle = "Plantings"
	spotCookie = "spot"
)

// show shows a page of forms.
func (s *Server) show(title, name string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if p, ok := s.page(w, r, "/"+name); ok {
			s.shell(w, http.StatusOK, title, name, p)
		}
	}
}

// post makes the handler of a form that writes: write reads the form and hands it to the
// garden, and returns the word by which the page it leads back to says what was done. A mistake
// shows the form named again. What comes a second time, as when a bad network had it sent again, is
// not written again.
func (s *Server) post(title, name string, write func(*values, Choices) (word string, err error)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if err := r.ParseForm(); err != nil {
			status := http.StatusBadRequest
			if errors.As(err, new(*http.MaxBytesError)) {
				status = http.StatusRequestEntityTooLarge
			}
			http.Error(w, "the form could not be read", status)
			return
		}
		p, ok := s.page(w, r, "/"+name)
		if !ok {
			return
		}
		p.Done = ""
		v := &values{Values: r.PostForm, units: p.Choices.Units}
		back := v.Get("from")
		if !slices.Contains([]string{"/", "/log", "/plantings", "/try"}, back) {
			back = "/" + name
		}
		s.writing.Lock()
		defer s.writing.Unlock()
		this := sha256.Sum256([]byte(r.URL.Path + " " + v.Encode())) // with the mark of its page
		word := "again"
		if !slices.Contains(s.stored, this) {
			var err error
			word, err = write(v, p.Choices)
			if v.mistake != nil {
				err = v.mistake
			}
			if err != nil {
				p.Was = v.Values
				s.again(w, r, title, name, p, err)
				return
			}
			if v.Get("once") != "" {
				s.stored = append(s.stored[max(0, len(s.stored)-999):], this)
			}
		}
		if spot := v.Get("spot"); word == "morning" {
			http.SetCookie(w, &http.Cookie{Name: spotCookie, Value: url.QueryEscape(spot), Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode, MaxAge: 400 * 24 * 3600})
		}
		http.Redirect(w, r, back+"?done="+word, http.StatusSeeOther)
	}
}

// morning writes a morning's reading.
func (s *Server) morning(v *values, c Choices) (string, error) {
	r := nothing(v.day("date", s.today()), v.choice("spot", c.Spots, false))
	r.Tmin = v.temperature("tmin")
	r.Cover = v.choice("cover", c.Covers, true)
	r.Damage = v.choice("damage", c.Damages, true)
	r.Note = v.note("note")
	if math.IsNaN(r.Tmin) {
		v.fail("tmin", "is missing; wanted the lowest temperature of the night in %s", c.Units.Unit())
	}
	return "morning", v.then(func() error { return s.garden.AddReading(r) })
}

// evening writes what is known of the night to come: a line of the coming morning.
func (s *Server) evening(v *values, c Choices) (string, error) {
	r := nothing(s.today()+1, v.choice("spot", c.Spots, false))
	r.Forecast = v.temperature("forecast")
	r.Evening = v.temperature("reading")
	r.DewPoint = v.temperature("dewpoint")
	r.Humidity = v.number("humidity", 1, 100, "%")
	r.Cloud = v.choice("cloud", c.Clouds, true)
	r.Wind = v.choice("wind", c.Winds, true)
	if math.IsNaN(r.Forecast) && math.IsNaN(r.Evening) && r.Cloud == "" && r.Wind == "" {
		v.fail("forecast", "and all else is empty; wanted something of the night to come")
	}
	return "evening", v.then(func() error { return s.garden.AddReading(r) })
}

// nothing is a reading without values.
func nothing(d climate.Day, spot string) Reading {
	n := math.NaN()
	return Reading{Day: d, Spot: spot, Tmin: n, Evening: n, DewPoint: n, Humidity: n, Forecast: n}
}

// planting reads which one is meant.
func (v *values) planting(c Choices) string {
	var names []string
	for _, p := range c.Plantings {
		names = append(names, p.Name)
	}
	return v.choice("planting", names, false)
}

// did writes what was done to a planting, or that it is not done yet.
func (s *Server) did(v *values, c Choices) (string, error) {
	d := Deed{Planting: v.planting(c), What: v.choice("what", c.Deeds, v.Get("answer") != ""), Day: v.day("date", s.today())}
	if v.Get("answer") == "not yet" {
		return "later", v.then(func() error { return s.garden.NotYet(d) })
	}
	return "did", v.then(func() error { return s.garden.Did(d) })
}

func (s *Server) move(v *values, c Choices) (string, error) {
	name := v.planting(c)
	return "move", v.then(func() error { return s.garden.Move(name) })
}

func (s *Server) undo(v *values, _ Choices) (string, error) { return "undo", s.garden.Undo() }

func (s *Server) keep(v *values, c Choices) (string, error) {
	t, name := s.trial(v, c), v.note("name")
	return "keep", v.then(func() error { return s.garden.Keep(t, name) })
}

func (s *Server) trial(v *values, c Choices) Trial {
	return Trial{
		Crop:  v.choice("crop", c.Crops, false),
		Spot:  v.choice("spot", c.Spots, false),
		Cover: v.choice("cover", c.Covers, true),
		Day:   v.day("date", s.today()+2*climate.YearDays),
		Sown:  v.choice("how", []string{"raised", "sown"}, true) == "sown",
	}
}

// try answers a question, and writes nothing, so it is a GET that can be kept.
func (s *Server) try(w http.ResponseWriter, r *http.Request) {
	p, ok := s.page(w, r, "/try")
	if !ok {
		return
	}
	q := r.URL.Query()
	if !q.Has("crop") {
		s.shell(w, http.StatusOK, tryTitle, "try", p)
		return
	}
	v := &values{Values: q, units: p.Choices.Units}
	p.Was = q
	trial := s.trial(v, p.Choices)
	var answer Answer
	if err := v.then(func() (err error) { answer, err = s.garden.Try(trial); return err }); err != nil {
		s.again(w, r, tryTitle, "try", p, err)
		return
	}
	var b bytes.Buffer
	if err := page.WriteSection(&b, "answer", "The answer", answer.Section); err != nil {
		s.fail(w, r, err)
		return
	}
	p.Answer = template.HTML(b.String())
	if answer.Better != 0 {
		p.Better = answer.Better.String()
	}
	s.shell(w, http.StatusOK, tryTitle, "try", p)
}
