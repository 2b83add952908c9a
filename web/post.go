package web

import (
	"errors"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"net/url"
	"os"
	"strings"

	"mediabuy/web/internal/refusal"
)

// mostFields bounds the fields of one form: without the script a table sends every
// cell, and a thousand quotes of some twenty columns are a fifth of it. The
// standard library stops at ten thousand, for the whole program.
const mostFields = 100_000

// readPost puts the fields of a form into r.PostForm.
func readPost(r *http.Request) error {
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil || kind != "application/x-www-form-urlencoded" {
		return refusal.New(http.StatusUnsupportedMediaType, fmt.Sprintf("what was sent is %q, want a form", r.Header.Get("Content-Type")), "use the page itself")
	}
	body, err := io.ReadAll(r.Body) // of MaxBody at most
	if err != nil {
		return badForm(err)
	}
	if strings.Count(string(body), "&") >= mostFields {
		return refusal.New(http.StatusRequestEntityTooLarge, fmt.Sprintf("the form has more than %d fields", mostFields), "change so large a file in a spreadsheet")
	}
	r.PostForm = url.Values{}
	for field := range strings.SplitSeq(string(body), "&") {
		name, value, _ := strings.Cut(field, "=")
		name, err1 := url.QueryUnescape(name)
		value, err2 := url.QueryUnescape(value)
		if err := errors.Join(err1, err2); err != nil {
			return refusal.New(http.StatusBadRequest, "what was sent cannot be read as a form: "+err.Error(), "use the page itself")
		}
		if name != "" {
			r.PostForm[name] = append(r.PostForm[name], value)
		}
	}
	return nil
}

// readFiles reads a form that may carry files.
func readFiles(r *http.Request) error {
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || kind != "multipart/form-data" {
		return refusal.New(http.StatusUnsupportedMediaType, fmt.Sprintf("what was sent is %q, want a form with room for files", r.Header.Get("Content-Type")), "use the page itself")
	}
	switch err := r.ParseMultipartForm(MaxBody); {
	case errors.Is(err, multipart.ErrMessageTooLarge), errors.Is(err, http.ErrMissingBoundary), errors.Is(err, io.ErrUnexpectedEOF):
		return refusal.New(http.StatusBadRequest, "what was sent cannot be read as a form: "+err.Error(), "use the page itself")
	case err != nil:
		return badForm(err)
	}
	return nil
}

// badForm is why what was sent could not be read to its end.
func badForm(err error) error {
	if errors.Is(err, os.ErrDeadlineExceeded) {
		return refusal.New(http.StatusRequestTimeout, "what was sent came too slowly and was not read to its end, so nothing was done with it", "send it again")
	}
	return fmt.Errorf("reading what was sent: %w", err)
}
