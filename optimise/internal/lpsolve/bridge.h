/* The C side of the binding: the few loops and the callback that are better kept
   off the Go/C border. All indexes here are lp_solve's own, from 1. */
#ifndef MEDIABUY_LPSOLVE_BRIDGE_H
#define MEDIABUY_LPSOLVE_BRIDGE_H

#include <stdint.h>
#include <lpsolve/lp_lib.h>

/* mb_watch is polled by lp_solve while it works. Go writes stop from another
   thread, so every read and write of it is atomic. */
typedef struct {
  int32_t stop;     /* not 0: the caller's context has ended */
  int32_t fired;    /* not 0: the last solve was told to stop */
  int64_t polls;    /* how often the last solve has asked */
  int64_t most;     /* polls after which to stop, 0 for no limit */
  int64_t deadline; /* nanoseconds of CLOCK_MONOTONIC, 0 for none */
} mb_watch;

/* mb_outcome is what one solve leaves behind. */
typedef struct {
  int status;         /* what solve() returned */
  int filled;         /* not 0: x was */
  int64_t iterations;
} mb_outcome;

int mb_start(void);
lprec *mb_new(int rows, int columns);
int mb_add_columns(lprec *lp, int n, const int *start, int *row, double *coef);
void mb_apply(lprec *lp, mb_watch *w, int pivoting);
void mb_solve(lprec *lp, mb_watch *w, int64_t limit_ns, int64_t most, mb_outcome *out, double *x);

#endif
