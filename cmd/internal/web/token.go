package web

import (
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base32"
	"encoding/hex"
	"net/http"
	"strings"
	"time"
)

// NewToken returns a random word of 80 bits, in groups that can be typed on a telephone.
func NewToken() string {
	var b [10]byte
	rand.Read(b[:]) // never fails (crypto/rand)
	t := strings.ToLower(base32.StdEncoding.EncodeToString(b[:]))
	return t[:4] + "-" + t[4:8] + "-" + t[8:12] + "-" + t[12:]
}

// MinToken is the shortest word that a grower may choose.
const MinToken = 12

const cookieName = "frostward"

// cookie is what a browser shows once it has entered: a proof that it knew the token,
// good until the server stops.
func (s *Server) cookie() string {
	m := hmac.New(sha256.New, s.key[:])
	m.Write([]byte(s.token))
	return hex.EncodeToString(m.Sum(nil))
}

func (s *Server) entered(r *http.Request) bool {
	c, err := r.Cookie(cookieName)
	return err == nil && subtle.ConstantTimeCompare([]byte(c.Value), []byte(s.cookie())) == 1
}

func (s *Server) enterForm(w http.ResponseWriter, _ *http.Request) {
	s.shell(w, http.StatusOK, "Enter", "enter", formPage{})
}

// enter checks the token. One attempt a second is heard, whoever makes it, so that
// guessing gets nowhere.
func (s *Server) enter(w http.ResponseWriter, r *http.Request) {
	if s.token == "" {
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return
	}
	given := strings.ToLower(strings.TrimSpace(r.PostFormValue("token")))
	a, b := sha256.Sum256([]byte(given)), sha256.Sum256([]byte(strings.ToLower(s.token)))
	if subtle.ConstantTimeCompare(a[:], b[:]) != 1 {
		s.attempts.Lock()
		time.Sleep(s.delay)
		s.attempts.Unlock()
		s.shell(w, http.StatusForbidden, "Enter", "enter", formPage{Mistake: mistakef("token", "is not the word that the server printed")})
		return
	}
	http.SetCookie(w, &http.Cookie{Name: cookieName, Value: s.cookie(), Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
	http.Redirect(w, r, "/", http.StatusSeeOther)
}
