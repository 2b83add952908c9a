// Package optimise finds the cheapest safe purchase that fills a job's beds.
//
// Call [Solve] with a job read by package quotes; it answers with a [Plan]: what
// to buy, how it comes, where it goes, what every table weighs, and the exact
// bill. [Price] works out the bill of any purchase, [Verify] holds a plan against
// the job's own words, [Compare] sets quotes side by side, [ExportModel] gives
// the model as data for any solver.
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
//	o[s]     ∈ {0,1} the supplier is used
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
//
// # How it is solved
//
// What stones go in which bed costs nothing by itself, so the search works on the
// purchase alone; that the beds can be filled with it, within every weight and
// share, is asked of a small linear program for each site, which answers a
// purchase that does not fit with a row that it breaks (placer). The same rows
// steer a search by exchange that finds good purchases before the proof begins
// (proposer). The proof is a branch and bound over lp_solve's linear programs
// (internal/search). What it answers is placed once more in the tidiest way,
// priced exactly, and held against the job by [Verify].
//
// # What is counted how
//
// Readings where the terms of trade leave room, each the one that does not cost
// the buyer money without a word:
//
//   - free_over and min_order look at all goods a supplier sends to a site,
//     before tax; where prices carry tax it is taken off first.
//   - max_deliveries counts drops, not their loads.
//   - Where a supplier's rows state different handling, the highest of the rows
//     used is paid, once.
//   - A load fee without a size of load is paid once for the order.
//   - A bed given by volume alone counts as flooded to its surface.
//   - A table's weight goes by the media table's density, also where a quote
//     states another.
package optimise
