package message

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

// measure reads every message of a folder as a job in its habit would.
func measure(tb testing.TB, dir string) (tally, int) {
	var all tally
	told := readFacts(tb, dir)
	for _, f := range told {
		p, err := Parse(f.text, Options{Delivery: true, Settings: files.Source{Name: "job.toml", R: strings.NewReader(f.settings)}})
		require.NoError(tb, err, f.name)
		requireWhole(tb, p)
		all.add(f.judge(p))
	}
	return all, len(told)
}

// sets are the folders of messages with their facts, oldest first.
var sets = []string{"told", "heldback", "fresh", "later", "sight", "again", "last", "strangers", "parting", "decoys", "lures", "ordinary", "unruly", "everyday", "rough", "common", "knotty", "usual", "tangled", "plainly", "daily", "voices", "steady", "early", "mixed", "weekday", "assorted", "counter", "doorstep", "errand", "porch", "quay", "mill", "lane"}

// TestNoWrongFact reads messages whose facts were written down beforehand: no cell may say what is not so. How much is
// found is measured by BenchmarkFacts.
//
// Before the reader was mended by them, the messages of told had a precision of 91.7 % and a recall of 60.4 %. Those of
// heldback were written after that and read once before anything was mended by them: precision 92.3 %, recall 73.1 %.
// What stood in wrong cells there was then mended too, so only that first figure tells of messages nobody here has seen.
// Those of fresh were written later, in more habits and without a look at the rules: precision 95.3 % (17 of 359 cells
// wrong), recall 54.8 % (375 of 684 facts) at first sight. Those of later came after the reader was mended by these, and were
// made as unruly as could be: precision 86.9 % (26 of 199 cells), recall 55.7 % (200 of 359 facts) at first sight. Those of
// sight came after that again, from more countries: precision 88.6 % (30 of 263 cells), recall 54.8 % (222 of 405 facts) at
// first sight. Those of again were written when the reader had been mended by these: precision 97.0 % (6 of 199 cells), recall
// 62.5 % (188 of 301 facts) at first sight; those of last after that: precision 96.8 % (5 of 154 cells), recall 65.1 % (153 of
// 235 facts) at first sight; those of strangers, longer and in more shapes, after that: precision 95.3 % (18 of 383 cells, of which
// five were slips of the facts), recall 58.7 % (403 of 686 facts); those of parting when the reader had been mended by these:
// precision 96.7 % (6 of 181 cells), recall 77.4 % (171 of 221 facts). Those of decoys were written after that to mislead, with
// numbers near prices that are no prices: precision 88.7 % (23 of 204 cells, of which four were slips of the facts), recall 60.6 %
// (209 of 345 facts) at first sight; those of lures, as misleading, when the reader had been mended by these: precision 92.9 % (4 of
// 56 cells), recall 50.0 % (61 of 122 facts) at first sight. Those of ordinary and of unruly were written after that, from eight
// countries and without a look at the reader, the first as most suppliers write, the second as unruly as could be: precision 96.9 %
// (13 of 417 cells), recall 70.3 % (405 of 576 facts), and precision 93.4 % (13 of 196 cells), recall 45.5 % (240 of 528 facts), at
// first sight; none of these was a slip of the facts. Those of everyday and of rough were written when the reader had been mended by
// these: precision 100 % (none of 219 cells), recall 87.5 % (245 of 280 facts), and precision 89.1 % (13 of 119 cells), recall 65.9 %
// (120 of 182 facts), at first sight. Those of common and of knotty came after that, the first as most suppliers write, from eight
// countries: precision 94.6 % (22 of 411 cells, of which two were slips of the facts), recall 81.5 % (410 of 503 facts), and
// precision 90.7 % (10 of 108 cells), recall 54.7 % (135 of 247 facts), at first sight; their facts named some media and columns by
// other words than the job's, which was put right before they were measured. Those of usual and of tangled, richer in terms and from
// nine countries, were read once after the reader was mended by these: precision 96.6 % (13 of 382 cells, of which one was a slip of
// the facts), recall 70.7 % (410 of 580 facts), and precision 87.9 % (14 of 116 cells, one of them such a slip), recall 48.0 % (142
// of 296 facts). Those of plainly, the plain and common case from seven countries, were read once after the reader was mended by
// these: precision 98.8 % (3 of 259 cells, one of them a number), recall 91.8 % (267 of 291 facts), when names of media, taxes and
// suppliers in the facts had been put as the others have them. Those of daily and of voices, seventy as
// most suppliers write and forty as people speak, were read once after the reader was mended by these: precision 98.4 % (10 of 614
// cells), recall 81.2 % (624 of 768 facts), and, when it had been mended by daily, precision 90.5 % (20 of 210 cells), recall 55.6 %
// (244 of 439 facts). Those of steady, forty of the same kind as daily from six countries, were read once after the reader was
// mended by these: precision 96.0 % (13 of 326 cells), recall 72.7 % (344 of 473 facts). Those of early, forty as most
// suppliers write, and of mixed, forty of which a third are chat, came after that from two more writers: precision 93.7 % (26 of 413
// cells), recall 70.5 % (383 of 543 facts), and precision 95.4 % (17 of 369 cells), recall 63.1 % (355 of 563 facts), at first sight.
// What is left of a message has been asked about since, however its sentences run; then those of weekday and of assorted, by the same
// two writers and written with early and mixed, were read once: precision 97.9 % (9 of 438 cells), recall 86.9 % (476 of 548 facts), and
// precision 95.6 % (20 of 458 cells), recall 85.0 % (472 of 555 facts). Those of counter, sixty by another writer, were read once after
// the reader was mended by these: precision 94.9 % (28 of 549 cells), recall 78.3 % (625 of 799 facts). Those of
// doorstep, fifty as most suppliers write by a fourth writer, were read once after that: precision 99.4 % (3 of 506 cells), recall 86.2 %
// (545 of 632 facts), when a fee for each ton had been put as the others have it. Those of errand, sixty-three of the same kind by a
// fifth writer, were read once after that: precision 98.2 % (11 of 614 cells), recall 84.6 % (717 of 848 facts). Those of porch, sixty by
// a sixth, were read once after the reader was mended by errand: precision 97.4 % (16 of 627 cells), recall 83.1 % (698 of 840 facts);
// after both, goods that are no medium, a fee for each tonne and the short name of a firm were put as the others have them.
// Those of quay and of mill, sixty each by a seventh and an eighth writer, were read once after that, both before anything was mended by
// either: precision 96.8 % (15 of 468 cells), recall 88.0 % (572 of 650 facts), and precision 97.2 % (13 of 460 cells), recall 80.0 % (588
// of 735 facts). Those of lane, fifty by a ninth, were read once after the reader was mended by these: precision 98.6 % (6 of 439 cells, all
// in one row), recall 88.4 % (478 of 541 facts). All are invented; names in six of them that stood for real places
// were changed after they were read first. What is measured of any of them now is no measure of messages nobody here has seen.
func TestNoWrongFact(t *testing.T) {
	messages := 0
	for _, dir := range sets {
		got, n := measure(t, dir)
		messages += n
		assert.Empty(t, got.faults, dir)
		assert.GreaterOrEqual(t, got.recall(), map[string]float64{"told": 0.92, "heldback": 0.93, "fresh": 0.9, "later": 0.83, "sight": 0.87, "again": 0.94, "last": 0.92, "strangers": 0.89, "parting": 0.85, "decoys": 0.8, "lures": 0.8, "ordinary": 0.9, "unruly": 0.65, "everyday": 0.93, "rough": 0.67, "common": 0.93, "knotty": 0.56, "usual": 0.86, "tangled": 0.49, "plainly": 0.92, "daily": 0.9, "voices": 0.66, "steady": 0.88, "early": 0.85, "mixed": 0.75, "weekday": 0.86, "assorted": 0.86, "counter": 0.8, "doorstep": 0.89, "errand": 0.91, "porch": 0.87, "quay": 0.95, "mill": 0.92, "lane": 0.9}[dir], "facts that were read once are read still: %v", got.lost)
		t.Logf("%s: %d messages: %v", dir, n, got)
		for _, s := range got.faults {
			t.Log("wrong: " + s)
		}
		if os.Getenv("LOST") != "" {
			for _, s := range got.lost {
				t.Log("lost: " + s)
			}
		}
	}
	assert.GreaterOrEqual(t, messages, 300)
}

// BenchmarkFacts measures how much of the messages is read rightly: precision is the share of cells that are among the
// facts, recall the share of facts that are understood or asked, both in percent.
func BenchmarkFacts(b *testing.B) {
	for _, dir := range sets {
		b.Run(dir, func(b *testing.B) {
			var got tally
			var n int
			for range b.N {
				got, n = measure(b, dir)
			}
			b.ReportMetric(100*got.precision(), "%precision")
			b.ReportMetric(100*got.recall(), "%recall")
			b.ReportMetric(float64(n), "messages")
			b.ReportMetric(float64(got.facts), "facts")
		})
	}
}
