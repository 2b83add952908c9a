// Package model writes a buying job as a mixed-integer program: [NewInstance]
// merges exactly what is alike, [Build] writes rows and columns, each family with
// its formula above it and every row and column named after quotes, beds and
// suppliers.
//
// # The model
//
// Sets: quotes q of supplier s(q), sites i, suits u (all layers of one site that
// the same quotes may fill), slots t (parts of a suit tied to others by a weight
// limit or a share), classes k (quotes of one supplier that place alike at a
// site), grades g (classes of all suppliers that place alike), drops d (ways of
// a supplier's goods to a site), break pools p with price levels l.
//
//	n[q,i]   steps of q bought for site i, whole; one step is step[q] packs
//	m[q,i,l] those bought at level l;  z[p,l] ∈ {0,1} the level is reached
//	v[k,u]   placed litres of class k in suit u;  w[g,t] of grade g in slot t
//	y[d]     ∈ {0,1} the drop is used;  e[d,f] ∈ {0,1} it carries form f
//	c[q,d]   steps of q it carries;  waive[d] ∈ {0,1};  loads[d] whole
//	o[s]     ∈ {0,1} the supplier is used;  b[q] ∈ {0,1} the quote is bought of
//
//	minimise   Σ price·m·(1+tax) + rinsing·n + haul·c + order·y − order·waive
//	           + load·loads + handling·o
//	subject to Σ_k v[k,u] = D[u], Σ_g w[g,t] = D[t]                     (fill)
//	           Σ_u v[k,u] ≤ Σ_{q∈k} placed[q]·step[q]·n[q,i]            (supply)
//	           least and most quantities                                (stock)
//	           n = Σ_l m, m within its level's packs when z             (breaks)
//	           n = Σ_d c, c only with its drop                          (carried)
//	           one way for each form, handling with any drop            (orders)
//	           whole loads, values that waive a fee or refuse an order  (fees)
//	           weights and shares of units                              (tie)
//	           most suppliers and deliveries                            (counts)
//	           most quotes bought of                                    (countThings)
//	           every bed filled alike                                   (sameEverywhere)
//
// Each family is one method in rows.go and the files beside it, with its formula above.
//
// # Why merging changes nothing
//
// A layer that no limit or share ties to another asks only for litres, so layers
// of one site that the same quotes may fill are one demand: any split of what
// fills their sum fills each. A limit ties nothing when even the heaviest medium
// welcome in every layer stays below it, nor does a share that cannot be passed.
//
// A unit is what a limit or a share does tie together: a table with its beds, or
// one bed. What can fill it is a set of points P, given by linear rows, so it is
// convex. Two units are alike when their rows agree once divided by their
// litres: then their sets are λ₁P and λ₂P of one convex P, whose sum is
// (λ₁+λ₂)P (take x = λ₁a + λ₂b; then x/(λ₁+λ₂) is a mean of a and b, so in P).
// One unit scaled up therefore admits just the sums of what the two admit, and a
// fill of it is split back in proportion.
//
// Quotes of one supplier with the same medium, welcome in the same layers and
// carried by the same drops, add up their litres in every row but their own
// stock and price, so they place as one class; beds do not see suppliers, so
// they see only grades. A quote refused everywhere, or that cannot reach a site,
// has no column there.
//
// The bound on each count of packs, with the reason why it cuts nothing off,
// stands at caps.
package model
