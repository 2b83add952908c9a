package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// servingWithin runs serve with limits of its own for every connection until the test ends, and gives the address that it
// printed.
func servingWithin(t *testing.T, dir string, limits connLimits) *url.URL {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	out, in := io.Pipe()
	done := make(chan error, 1)
	go func() {
		a := &app{stdin: strings.NewReader(""), stdout: in, stderr: io.Discard, now: time.Now}
		err := runServe(ctx, a, &serveOptions{listen: serveListen, limits: limits}, dir)
		in.Close()
		done <- err
	}()
	t.Cleanup(func() {
		cancel()
		require.NoError(t, <-done)
	})
	buf := make([]byte, 4096)
	n, err := out.Read(buf)
	require.NoError(t, err)
	link, err := url.Parse(printedLink.FindString(string(buf[:n])))
	require.NoError(t, err)
	return link
}

// drip sends begin at once and then byte after byte of rest, over and over, until the other side has closed the
// connection. It gives what was answered and how many times rest was sent whole.
func drip(t *testing.T, host, begin, rest string) (answer string, times int) {
	t.Helper()
	conn, err := net.Dial("tcp", host)
	require.NoError(t, err)
	defer conn.Close()
	require.NoError(t, conn.SetDeadline(time.Now().Add(patienceOfTests)))
	_, err = io.WriteString(conn, begin)
	require.NoError(t, err)
	over := make(chan string, 1)
	go func() {
		got, err := io.ReadAll(bufio.NewReader(conn))
		if errors.Is(err, os.ErrDeadlineExceeded) {
			got = append(got, "NOT CUT OFF"...)
		}
		over <- string(got) // any other error is the connection's end
	}()
	pause := time.NewTicker(5 * time.Millisecond)
	defer pause.Stop()
	for {
		for i := range rest {
			select {
			case got := <-over:
				return got, times
			case <-pause.C:
				// An error is the connection's end as well, which the reader tells.
				_, _ = conn.Write([]byte{rest[i]})
			}
		}
		times++
	}
}

// Who sends one byte at a time is cut off at the limit, be it in the head of a request or in its body. The limits are
// short, and what is sent would take far longer; no other time is looked at.
func TestServeCutsOffWhoIsSlow(t *testing.T) {
	t.Parallel()
	dir := sampleJob(t)
	file := filepath.Join(dir, "quotes.csv")
	before, err := os.ReadFile(file)
	require.NoError(t, err)
	slowHead, slowBody := serveLimits(), serveLimits()
	slowHead.head, slowBody.read = 300*time.Millisecond, 300*time.Millisecond

	link := servingWithin(t, dir, slowHead)
	answer, times := drip(t, link.Host, "GET / HTTP/1.1\r\nHost: "+link.Host+"\r\n", strings.Repeat("X-Slow: yes\r\n", 1000))
	assert.NotContains(t, answer, "NOT CUT OFF")
	assert.NotContains(t, answer, "200 OK")
	assert.Zero(t, times, "it never came to an end of what was to be sent")

	link = servingWithin(t, dir, slowBody)
	noFollow := &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	let, err := noFollow.Get(link.String())
	require.NoError(t, err)
	defer let.Body.Close()
	require.Equal(t, http.StatusSeeOther, let.StatusCode, "who is not slow is let in")
	require.Len(t, let.Cookies(), 1)
	const length = 60_000 // as many bytes never come in that time
	begin := fmt.Sprintf("POST /edit/quotes HTTP/1.1\r\nHost: %s\r\nOrigin: http://%s\r\nCookie: %s=%s\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: %d\r\n\r\n",
		link.Host, link.Host, let.Cookies()[0].Name, let.Cookies()[0].Value, length)
	answer, times = drip(t, link.Host, begin, strings.Repeat("a", length))
	assert.NotContains(t, answer, "NOT CUT OFF")
	assert.True(t, answer == "" || strings.HasPrefix(answer, "HTTP/1.1 408 "), "%q", answer)
	assert.Zero(t, times, "it never came to an end of what was to be sent")
	now, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(now), "half a form changes nothing")
}
