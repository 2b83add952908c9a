package web

import (
	"crypto/rand"
	"crypto/subtle"
	"io"
	"net"
	"net/http"
	"slices"
	"strings"
	"sync"
)

// guard decides which requests are answered.
type guard struct {
	hosts []string // besides those of this machine

	mu     sync.Mutex
	once   string // the token of the printed address; "" when it has been used
	secret string // the value of the cookie
}

func newGuard(hosts []string) *guard {
	return &guard{hosts: hosts, secret: rand.Text()}
}

// token makes a new token; an older one is no longer good.
func (g *guard) token() string {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.once = rand.Text()
	return g.once
}

// spend reports whether a token is the one that was made last, which is then used
// up.
func (g *guard) spend(token string) bool {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.once == "" || subtle.ConstantTimeCompare([]byte(token), []byte(g.once)) != 1 {
		return false
	}
	g.once = ""
	return true
}

// policy is the Content-Security-Policy of every answer: only files of this page
// run, and nothing frames it or is sent elsewhere.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; " +
	"form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// admit sets the headers of every answer, and writes the answer itself where a
// request is not let in. It reports whether the request is.
func (g *guard) admit(w http.ResponseWriter, r *http.Request) bool {
	head := w.Header()
	head.Set("Content-Security-Policy", policy)
	head.Set("X-Content-Type-Options", "nosniff")
	head.Set("X-Frame-Options", "DENY")
	head.Set("Cross-Origin-Opener-Policy", "same-origin")
	head.Set("Cross-Origin-Resource-Policy", "same-origin")
	// Not no-referrer: with it browsers send "Origin: null" with this page's own forms.
	head.Set("Referrer-Policy", "same-origin")
	head.Set("Cache-Control", "no-store")

	if !g.knownHost(r.Host) {
		refuse(w, "this page is not called by that name", "use the address that mediabuy serve printed")
		return false
	}
	if !sameOrigin(r) {
		refuse(w, "this request comes from another site", "use the page itself")
		return false
	}
	if token := r.URL.Query().Get("token"); token != "" && r.Method == http.MethodGet && r.URL.Path == "/" {
		if g.spend(token) {
			// No Secure: the page is plain HTTP on this machine.
			http.SetCookie(w, &http.Cookie{Name: cookieName(r), Value: g.secret, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
			if r.Header.Get("Sec-Fetch-Site") == "cross-site" {
				// The link was followed on another site, such as a terminal in the browser: a redirect would count as coming
				// from there and carry no strict cookie, while a step from this page does.
				head.Set("Content-Type", "text/html; charset=utf-8")
				_, _ = io.WriteString(w, `<!DOCTYPE html><html lang="en"><title>mediabuy</title><meta http-equiv="refresh" content="0;url=/"><p><a href="/">To the page</a></p></html>`) // as in render
				return false
			}
			http.Redirect(w, r, "/", http.StatusSeeOther)
			return false
		}
		if g.inside(r) { // the link opened again where it was opened before
			http.Redirect(w, r, "/", http.StatusSeeOther)
			return false
		}
		refuse(w, "this address was used before and is good once", "start mediabuy serve again for a new one")
		return false
	}
	if !g.inside(r) {
		refuse(w, "this browser has not been let in", "open the whole address that mediabuy serve printed, with its token")
		return false
	}
	return true
}

func refuse(w http.ResponseWriter, words, hint string) {
	http.Error(w, "mediabuy: "+words+"\nhint: "+hint, http.StatusForbidden)
}

// cookieName tells apart the pages of several ports, as cookies do not.
func cookieName(r *http.Request) string {
	_, port, err := net.SplitHostPort(r.Host)
	if err != nil {
		port = "80" // a Host without a port
	}
	return "mediabuy-" + port
}

func (g *guard) inside(r *http.Request) bool {
	c, err := r.Cookie(cookieName(r))
	return err == nil && subtle.ConstantTimeCompare([]byte(c.Value), []byte(g.secret)) == 1
}

// knownHost reports whether a Host header names this machine itself or one of the
// hosts allowed. A name under someone else's control that resolves to this machine
// (DNS rebinding) does neither.
func (g *guard) knownHost(host string) bool {
	name, _, err := net.SplitHostPort(host)
	if err != nil {
		name = host
	}
	name = strings.ToLower(strings.Trim(name, "[]"))
	return slices.Contains([]string{"127.0.0.1", "localhost", "::1"}, name) || slices.Contains(g.hosts, name)
}

// sameOrigin reports whether a request comes from this page or was typed in. What
// changes something must say so by Origin, which browsers always send with it;
// the Host has been looked at before. Port and scheme count: another page of this
// machine is another site.
func sameOrigin(r *http.Request) bool {
	origin := r.Header.Get("Origin")
	if origin != "" && origin != "http://"+r.Host {
		return false
	}
	switch r.Header.Get("Sec-Fetch-Site") {
	case "", "same-origin", "none":
	default: // a link on another site may lead here, but finds no cookie with it
		if r.Method != http.MethodGet || r.Header.Get("Sec-Fetch-Mode") != "navigate" {
			return false
		}
	}
	return r.Method == http.MethodGet || r.Method == http.MethodHead || origin != ""
}
