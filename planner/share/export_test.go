package share

import "context"

// ProveAlone is Choose without a first choice to start from and without bettering it: the exact search has to find
// everything by itself.
func ProveAlone(ctx context.Context, p Problem) (Result, error) {
	s := newSearch(ctx, newModel(&p), nil)
	if s.m.choose > len(s.m.dishes) {
		return Result{}, ErrInfeasible
	}
	s.prepare()
	s.prove()
	return s.result()
}
