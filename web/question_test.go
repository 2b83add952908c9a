package web

import (
	"bytes"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

// answered sends a paste with answers, as the buttons of the questions do.
func (v *visitor) answered(text, answers, answer string) *httptest.ResponseRecorder {
	v.t.Helper()
	var b bytes.Buffer
	m := multipart.NewWriter(&b)
	for name, value := range map[string]string{"text": text, "answers": answers, "answer": answer} {
		require.NoError(v.t, m.WriteField(name, value))
	}
	require.NoError(v.t, m.Close())
	r := v.request("POST", "/paste", &b)
	r.Header.Set("Content-Type", m.FormDataContentType())
	return v.do(r)
}

// twoQuestions leaves two breaks open.
const twoQuestions = "Moor End Quarry: lava 3/4 in, $78 a yard, over 10 yards 71, over 20 yards 65\n"

// What reads in two ways is asked: its row is not ticked, nothing of it enters, and each answer is carried on to the next.
func TestPasteAsks(t *testing.T) {
	v := opened(t, Options{})
	before := v.read(files.QuotesFile)
	w := v.paste(twoQuestions, nil)
	assert.Contains(t, w.Body.String(), "2 questions before this can enter")
	assert.Contains(t, w.Body.String(), `<button name="answer" value="0.0">from 10</button>`)
	assert.Contains(t, w.Body.String(), "a question above is still open about this row")
	form := offered(t, w)
	assert.NotContains(t, form, "take.0", "a row with an open question is not ticked")
	form.Set("op", "add")
	assert.Equal(t, http.StatusBadRequest, v.post("/paste/rows", form, false).Code, "nothing is chosen")
	assert.Equal(t, before, v.read(files.QuotesFile))

	w = v.answered(twoQuestions, "", "0.1")
	assert.Contains(t, w.Body.String(), "1 question before this can enter")
	assert.Contains(t, w.Body.String(), `name="answers" value="0.1"`)
	assert.NotContains(t, offered(t, w), "take.0")

	w = v.answered(twoQuestions, "0.1", "0.0")
	assert.Contains(t, w.Body.String(), "All questions are answered")
	form = offered(t, w)
	assert.Equal(t, "yes", form.Get("take.0"))
	form.Set("op", "add")
	require.Equal(t, http.StatusSeeOther, v.post("/paste/rows", form, false).Code)
	assert.Equal(t, before+",Moor End Quarry,lava,lava rock,,1 yd3,,$78,11: 71; 20: 65,,,3/4 in,,,,\n", v.read(files.QuotesFile))
}

// A pallet's price is never a bag's price: without an answer it is in no row.
func TestPasteAsksAboutAPallet(t *testing.T) {
	v := opened(t, Options{})
	w := v.paste("Moor End Quarry: pumice 2 cu ft bags, pallet of 40 for $480\n", nil)
	assert.Contains(t, w.Body.String(), "$12.00 each")
	assert.Contains(t, w.Body.String(), "one pack of 40")
	assert.Empty(t, offered(t, w)["take.0"])
	w = v.answered("Moor End Quarry: pumice 2 cu ft bags, pallet of 40 for $480\n", "", "0.1")
	assert.Equal(t, "yes", offered(t, w).Get("take.0"))
	assert.Contains(t, w.Body.String(), "80 cu ft")
}

// Answers that nobody was asked for are refused, and read nothing.
func TestPasteRefusesOtherAnswers(t *testing.T) {
	v := opened(t, Options{})
	for _, bad := range []string{"7.0", "0.9", "-1.0", "x", "0", "0.0.0"} {
		assert.Equal(t, http.StatusBadRequest, v.answered(twoQuestions, "", bad).Code, bad)
	}
}
