#include "bridge.h"

#include <string.h>
#include <time.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif

static int64_t mb_now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (int64_t)t.tv_sec * 1000000000 + t.tv_nsec;
}

/* SAFE_POLLS is how many polls to let pass: the library asks once before and once
   after it has set the problem up, and when stopped at either it leaves
   the problem such that the next solve crashes in coldual (seen with 5.5.2.5;
   stopping at any later poll was tried, one by one, and does no harm). */
enum { SAFE_POLLS = 2 };

/* mb_abort is lp_solve's abort callback; anything but 0 stops the solve. */
static int __WINAPI mb_abort(lprec *lp, void *handle) {
  mb_watch *w = handle;
  if (++w->polls <= SAFE_POLLS)
    return FALSE;
  if (__atomic_load_n(&w->stop, __ATOMIC_RELAXED) == 0 &&
      (w->most == 0 || w->polls <= w->most) &&
      (w->deadline == 0 || mb_now() < w->deadline))
    return FALSE;
  w->fired = TRUE;
  return TRUE;
}

/* mb_keep has memory that the library frees kept for its next problem. glibc gives it
   back to the system as soon as 128 KiB at the end of a thread's heap are free and takes
   it anew for the next factorisation, which on several threads costs a third of the time
   of a small job. Pieces below KEPT come from that heap as well, not from the system one
   by one. What is kept is no more than was in use at once. Where glibc refuses, all is as
   without it. */
enum { KEPT = 1 << 25 }; /* the most that M_MMAP_THRESHOLD takes (mallopt(3)) */

static void mb_keep(void) {
#ifdef __GLIBC__
  mallopt(M_TRIM_THRESHOLD, 2 * KEPT);
  mallopt(M_MMAP_THRESHOLD, KEPT);
#endif
}

/* mb_start makes and frees one problem, so that the function pointers of the
   library's arithmetic are set before two threads can do it at once. */
int mb_start(void) {
  mb_keep();
  lprec *lp = make_lp(0, 0);
  if (lp == NULL)
    return FALSE;
  delete_lp(lp);
  return TRUE;
}

/* mb_new makes an empty problem with room for rows and columns, minimising and
   silent. NULL means that memory ran out. */
lprec *mb_new(int rows, int columns) {
  lprec *lp = make_lp(rows, 0);
  if (lp == NULL)
    return NULL;
  set_verbose(lp, NEUTRAL);
  put_logfunc(lp, NULL, NULL);
  if (!resize_lp(lp, rows, columns)) {
    delete_lp(lp);
    return NULL;
  }
  set_minim(lp);
  /* Starting with the primal simplex from an infeasible basis ends in wrong
     answers and a damaged heap when a problem is solved again with other bounds
     (seen with 5.5.2.5), so the strategy is fixed, not an option. */
  set_simplextype(lp, SIMPLEX_DUAL_PRIMAL);
  /* The default, FIXEDVARS + STALLING, shifts bounds by random numbers seeded
     from the clock: the same problem could stop at another vertex. */
  set_anti_degen(lp, ANTIDEGEN_NONE);
  /* No column is split in two for reaching below this; see checkBounds. */
  set_negrange(lp, -lp->infinite);
  set_presolve(lp, PRESOLVE_NONE, 0);
  set_scaling(lp, SCALE_GEOMETRIC + SCALE_EQUILIBRATE + SCALE_INTEGERS);
  return lp;
}

/* mb_add_columns appends n columns given in column order: column k has the
   entries start[k] .. start[k+1]-1 of row (0 is the objective, then ascending)
   and coef. It returns 0, or the place from 1 of the column refused. */
int mb_add_columns(lprec *lp, int n, const int *start, int *row, double *coef) {
  for (int k = 0; k < n; k++)
    if (!add_columnex(lp, start[k + 1] - start[k], coef + start[k], row + start[k]))
      return k + 1;
  return 0;
}

/* mb_apply sets what may change from one solve to the next: who is asked whether to
   stop, and set_pivoting's rule and mode. Neither call can fail. */
void mb_apply(lprec *lp, mb_watch *w, int pivoting) {
  put_abortfunc(lp, mb_abort, w);
  set_pivoting(lp, pivoting);
}

/* mb_rest moves what rests on an infinite upper bound to its lower one. The
   library does not: when a bound has grown to infinity since the last solve it
   starts from there and answers OPTIMAL with costs such as 7e14 (seen with
   5.5.2.5). */
static void mb_rest(lprec *lp) {
  for (int i = 1; i <= lp->sum; i++)
    if (!lp->is_basic[i] && !lp->is_lower[i] && lp->orig_upbo[i] >= lp->infinite)
      lp->is_lower[i] = TRUE;
}

/* mb_solve solves within limit_ns and most polls (0 for no limit) and copies the columns of
   the best solution, if there is one, to x. */
void mb_solve(lprec *lp, mb_watch *w, int64_t limit_ns, int64_t most, mb_outcome *out, double *x) {
  double *best = NULL;
  memset(out, 0, sizeof *out);
  w->fired = FALSE;
  w->polls = 0;
  w->most = most;
  w->deadline = limit_ns > 0 ? mb_now() + limit_ns : 0;
  mb_rest(lp);
  out->status = solve(lp);
  out->iterations = get_total_iter(lp);
  if ((out->status == OPTIMAL || out->status == SUBOPTIMAL) && lp->solutioncount > 0 &&
      get_ptr_variables(lp, &best) && best != NULL) {
    out->filled = TRUE;
    memcpy(x, best, sizeof(double) * (size_t)get_Ncolumns(lp));
  }
}
