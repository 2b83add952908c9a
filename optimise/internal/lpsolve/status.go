package lpsolve

// #include "bridge.h"
import "C"

import "fmt"

// outcome maps what solve() returned. The codes are those of the lp_solve 5.5
// reference guide, solve.htm, and of lp_lib.h.
func outcome(code C.int) (Status, string) {
	switch code {
	case C.NOMEMORY:
		return NotSolved, "solve: NOMEMORY (-2)"
	case C.OPTIMAL:
		return Optimal, "solve: OPTIMAL (0)"
	case C.SUBOPTIMAL:
		return Feasible, "solve: SUBOPTIMAL (1)"
	case C.INFEASIBLE:
		return Infeasible, "solve: INFEASIBLE (2)"
	case C.UNBOUNDED:
		return Unbounded, "solve: UNBOUNDED (3)"
	case C.DEGENERATE:
		return NumericalFailure, "solve: DEGENERATE (4)"
	case C.NUMFAILURE:
		return NumericalFailure, "solve: NUMFAILURE (5)"
	case C.USERABORT:
		return Limit, "solve: USERABORT (6)"
	case C.TIMEOUT:
		return Limit, "solve: TIMEOUT (7)"
	case C.PROCFAIL:
		return NumericalFailure, "solve: PROCFAIL (10)"
	case C.PROCBREAK:
		return Limit, "solve: PROCBREAK (11)"
	case C.NOFEASFOUND:
		return Infeasible, "solve: NOFEASFOUND (13)"
	case C.ACCURACYERROR:
		return NumericalFailure, "solve: ACCURACYERROR (25)"
	}
	return Unknown, fmt.Sprintf("solve: unknown code %d", int(code))
}
