package web

import (
	"bytes"
	_ "embed"
	"errors"
	"html/template"
	"math"
	"net/http"
	"net/url"
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
	Done    string   // a sentence on what has been written
	Mistake *Mistake // what is to be put right
	Answer  template.HTML
}

// Value returns what a field held before.
func (f formPage) Value(field string) string { return f.Was.Get(field) }

// Wrong tells whether a field is the one to put right.
func (f formPage) Wrong(field string) bool { return f.Mistake != nil && f.Mistake.Field == field }

func (s *Server) page(w http.ResponseWriter, r *http.Request) (formPage, bool) {
	c, err := s.garden.Choices()
	if err != nil {
		s.fail(w, r, err)
		return formPage{}, false
	}
	return formPage{Choices: c, Was: url.Values{}, Today: s.today().String()}, true
}

// again shows a form with what is to be put right, or passes on a graver error.
func (s *Server) again(w http.ResponseWriter, r *http.Request, title, name string, p formPage, err error) {
	if !errors.As(err, &p.Mistake) {
		s.fail(w, r, err)
		return
	}
	s.shell(w, http.StatusUnprocessableEntity, title, name, p)
}

// form reads a posted form; a too long or malformed one is answered here.
func (s *Server) form(w http.ResponseWriter, r *http.Request) (*values, bool) {
	if err := r.ParseForm(); err != nil {
		status := http.StatusBadRequest
		if errors.As(err, new(*http.MaxBytesError)) {
			status = http.StatusRequestEntityTooLarge
		}
		http.Error(w, "the form could not be read", status)
		return nil, false
	}
	return &values{Values: r.PostForm}, true
}

const (
	logTitle   = "Log a reading"
	tryTitle   = "Try a planting"
	plantTitle = "Plantings"
)

func (s *Server) logForm(w http.ResponseWriter, r *http.Request) {
	p, ok := s.page(w, r)
	if !ok {
		return
	}
	switch r.URL.Query().Get("done") {
	case "morning":
		p.Done = "The reading is in the log."
	case "evening":
		p.Done = "The evening is in the log, and the garden's page reckons with it."
	}
	s.shell(w, http.StatusOK, logTitle, "log", p)
}

// log writes a morning's reading.
func (s *Server) log(w http.ResponseWriter, r *http.Request) {
	s.write(w, r, "morning", func(v *values, c Choices) Reading {
		reading := nothing(v.day("date", s.today()), v.choice("spot", c.Spots, false))
		reading.Tmin = v.number("tmin", -60, 60, "°C")
		reading.Cover = v.choice("cover", c.Covers, true)
		reading.Damage = v.choice("damage", c.Damages, true)
		reading.Note = v.note("note")
		if math.IsNaN(reading.Tmin) {
			v.fail("tmin", "is missing; wanted the lowest temperature of the night in °C")
		}
		return reading
	})
}

// evening writes what is known of the night to come: a line of the coming morning.
func (s *Server) evening(w http.ResponseWriter, r *http.Request) {
	s.write(w, r, "evening", func(v *values, c Choices) Reading {
		reading := nothing(s.today()+1, v.choice("spot", c.Spots, false))
		reading.Forecast = v.number("forecast", -60, 60, "°C")
		reading.Evening = v.number("reading", -60, 60, "°C")
		reading.DewPoint = v.number("dewpoint", -60, 60, "°C")
		reading.Humidity = v.number("humidity", 1, 100, "%")
		reading.Cloud = v.choice("cloud", c.Clouds, true)
		reading.Wind = v.choice("wind", c.Winds, true)
		if math.IsNaN(reading.Forecast) && math.IsNaN(reading.Evening) && reading.Cloud == "" && reading.Wind == "" {
			v.fail("forecast", "and all else is empty; wanted something of the night to come")
		}
		return reading
	})
}

// nothing is a reading without values.
func nothing(d climate.Day, spot string) Reading {
	n := math.NaN()
	return Reading{Day: d, Spot: spot, Tmin: n, Evening: n, DewPoint: n, Humidity: n, Forecast: n}
}

// write reads a form into a reading and hands it to the garden.
func (s *Server) write(w http.ResponseWriter, r *http.Request, part string, read func(*values, Choices) Reading) {
	v, ok := s.form(w, r)
	if !ok {
		return
	}
	p, ok := s.page(w, r)
	if !ok {
		return
	}
	p.Was = v.Values
	reading := read(v, p.Choices)
	if v.mistake != nil {
		s.again(w, r, logTitle, "log", p, v.mistake)
		return
	}
	if err := s.garden.AddReading(reading); err != nil {
		s.again(w, r, logTitle, "log", p, err)
		return
	}
	http.Redirect(w, r, "/log?done="+part, http.StatusSeeOther)
}

// try answers a question, and writes nothing, so it is a GET that can be kept.
func (s *Server) try(w http.ResponseWriter, r *http.Request) {
	p, ok := s.page(w, r)
	if !ok {
		return
	}
	q := r.URL.Query()
	if !q.Has("crop") {
		s.shell(w, http.StatusOK, tryTitle, "try", p)
		return
	}
	v := &values{Values: q}
	p.Was = q
	c := p.Choices
	trial := Trial{
		Crop:  v.choice("crop", c.Crops, false),
		Spot:  v.choice("spot", c.Spots, false),
		Cover: v.choice("cover", c.Covers, true),
		Day:   v.day("date", s.today()+2*climate.YearDays),
		Sown:  v.choice("how", []string{"raised", "sown"}, true) == "sown",
	}
	if v.mistake != nil {
		s.again(w, r, tryTitle, "try", p, v.mistake)
		return
	}
	answer, err := s.garden.Try(trial)
	if err != nil {
		s.again(w, r, tryTitle, "try", p, err)
		return
	}
	var b bytes.Buffer
	if err := page.WriteSection(&b, "answer", "The answer", answer); err != nil {
		s.fail(w, r, err)
		return
	}
	p.Answer = template.HTML(b.String())
	s.shell(w, http.StatusOK, tryTitle, "try", p)
}

func (s *Server) plantings(w http.ResponseWriter, r *http.Request) {
	p, ok := s.page(w, r)
	if !ok {
		return
	}
	if r.URL.Query().Has("done") {
		p.Done = "The planting is marked."
	}
	s.shell(w, http.StatusOK, plantTitle, "plantings", p)
}

func (s *Server) mark(w http.ResponseWriter, r *http.Request) {
	v, ok := s.form(w, r)
	if !ok {
		return
	}
	p, ok := s.page(w, r)
	if !ok {
		return
	}
	p.Was = v.Values
	var ids []string
	for _, pl := range p.Choices.Plantings {
		ids = append(ids, pl.ID)
	}
	m := Mark{ID: v.choice("planting", ids, false), What: v.choice("what", []string{"out", "picked"}, false), Day: v.day("date", s.today())}
	if v.mistake != nil {
		s.again(w, r, plantTitle, "plantings", p, v.mistake)
		return
	}
	if err := s.garden.MarkPlanting(m); err != nil {
		s.again(w, r, plantTitle, "plantings", p, err)
		return
	}
	http.Redirect(w, r, "/plantings?done=1", http.StatusSeeOther)
}
