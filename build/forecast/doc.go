// Package forecast says how many plants of a planned order may be alive on a
// day of their lives, from what became of whole imports before. It is pure:
// plain numbers in, a distribution out, and it knows no diary.
//
// # The model
//
// What is exchangeable is the import, not the plant: boxes differ (a cold
// night, a slow parcel), and the plants of one box share its luck. Import j has
// a share p_j of its own, drawn from a beta distribution with mean μ and weight
// κ; of its n_j plants y_j are alive on the day, a beta-binomial count. Two
// plants of one import are correlated by 1/(κ+1). A planned order is one new
// import, so its range is wide for two reasons that no number of plants takes
// away: imports differ, and few of them were seen.
//
// Before any import is seen μ is uniform on 0 to 1 and so is 8/(8+κ): half the
// belief lies on a κ below 8 (a correlation above 1/9), half above. The prior is
// the project's own choice. The posterior is summed over a grid of 64 × 64
// midpoints of these two. Beta-binomial models of groups that differ, with a
// belief about both parameters: Gelman et al., Bayesian Data Analysis, chapter
// 5; Tarone 1982, Biometrics 38:215-220. Cited from memory.
//
// # Units
//
// Plants are counts, or plant equivalents where some fates are unknown (see
// Followed). Shares and chances lie between 0 and 1. Days are days since
// arrival. Costs are in the currency of whoever asks.
//
// # What it refuses to know
//
// Without a usable import there is no forecast: the prior alone is a belief
// about nobody's plants. It doesn't forecast a species or a size; what became
// of those is for the caller to count beside it. It can't judge which imports
// are old enough: an import younger than the horizon shows its dead before its
// living, so the caller must leave out every import with a line that arrived
// less than the horizon before the diary's last day, and every one whose diary
// began late. It takes the next import to be like the ones before; an exporter
// or a season of another kind is outside what it knows. Nothing it returns is
// NaN or infinite: what doesn't exist is absent, and an ok or a flag says so.
package forecast
