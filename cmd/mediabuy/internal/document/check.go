package document

import (
	"mediabuy/optimise"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
)

// Check is the machine-readable answer of check.
type Check struct {
	OK       bool                         `json:"ok"`
	Problems []checkProblem               `json:"problems"`
	Warnings []optimise.DocumentComplaint `json:"warnings"`
	Refused  []optimise.DocumentRefusal   `json:"refused"`
	// Mix says whether some mix fills the beds; left out where the files have
	// problems. Infeasible is what stands in the way, as in the answer of plan.
	Mix        optimise.Possibility        `json:"mix,omitempty"`
	Infeasible []optimise.DocumentObstacle `json:"infeasible,omitempty"`
}

// checkProblem is one problem; one about a whole file or folder stands at line 1,
// column 1.
type checkProblem struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Heading string `json:"heading"`
	Found   string `json:"found"`
	Wanted  string `json:"wanted"`
	Hint    string `json:"hint"`
}

func NewCheck(rep *quotes.Report, fit *suitability.Fit, mix optimise.Possibility, why []optimise.Obstacle) Check {
	d := Check{OK: rep.OK(), Problems: []checkProblem{}, Warnings: optimise.DocumentWarnings(rep), Refused: []optimise.DocumentRefusal{}, Mix: mix, Infeasible: optimise.DocumentObstacles(why)}
	for _, p := range rep.Problems {
		d.Problems = append(d.Problems, checkProblem{p.File, max(1, p.Line), max(1, p.Col), p.Heading, p.Found, p.Wanted, p.Hint})
	}
	if fit != nil {
		d.Refused = optimise.DocumentRefusals(fit)
	}
	return d
}
