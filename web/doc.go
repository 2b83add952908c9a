// Package web shows a job as a page on this machine: its answer to look at, its
// files to type in, quotes to paste, questions to ask and papers to take away.
//
// Call New with the job's folder; it gives an http.Handler that knows no port and
// decides nothing. Reading is package quotes', answers are package optimise's,
// papers are package papers'; what is here turns requests into calls of theirs and
// their results into HTML.
//
// # What is where
//
// guard.go lets requests in and post.go reads their forms. A view is one file of Go that
// fills a struct with words, and one template of the same name that sets them out. What
// views share stands in rooms under internal: folder reads and writes the job's files,
// desk has answers worked out and forgotten, figure sets an answer out to look at, typing
// knows the files as cells and fields, paste makes rows of pasted text, and refusal is why
// something is not done.
//
// # Without scripts
//
// Every view is a page by itself and every change a form, so all but four things
// work without the script: answers while typing, files dropped on the page, charts
// that follow a slider, and a view that sees for itself that the files have changed. The script sends the same forms and puts the
// fragments that come back where they belong; it works nothing out.
//
// # Safety
//
// The page listens to this machine alone, and a web site open in the same browser
// is kept out: a foreign Host (DNS rebinding) or Origin is refused, the printed
// address holds a token that is good once, the cookie it is changed for is sent
// from this page only, and nothing but this page's own script may run in it. The
// measures are those of the OWASP cheat sheets on cross-site request forgery,
// content security policy and session management (memory). The job's folder is
// opened as an [os.Root]: no name and no link leads out of it. Two things a cookie
// cannot do: it is sent to every port of this machine, so whoever else runs pages
// here and is visited could use it while this page runs; and the page is plain HTTP,
// so on another address than this machine's own it can be listened to.
package web
