// Package survival does the sums of follow-up: how long subjects lasted, where
// some were lost and others left while still alive, and how groups of them
// differ. It is pure: plain numbers in, results out, and it knows no plants.
//
// # Units
//
// Times are days since a subject's own day 0, whole or not, finite, not below
// 0. Groups and strata are numbers of the caller's choosing. Shares and p
// values lie between 0 and 1. A loss and a leaving on one day: the loss comes
// first, so whoever leaves is still at risk (Kaplan and Meier 1958).
//
// # What it refuses to know
//
// Nothing here is NaN or infinite. A figure that doesn't exist (a median that
// was never reached, limits of a share that is 1, the mean of a curve that
// stops too early, a hazard ratio without losses) is absent, and a flag or an
// ok beside it says so. It reads no clock. It doesn't know why a subject left:
// every estimate assumes that leaving has nothing to do with what would have
// come next, and only the caller can judge that. Times that cannot be (NaN,
// below 0) are a broken promise of the caller's and panic.
//
// # Sources
//
// Each function names its own. The general ones are Klein and Moeschberger,
// Survival Analysis, second edition (2003), and Therneau and Grambsch,
// Modeling Survival Data (2000). Volumes and pages are cited from memory.
//
// Nearly every method is tested against values that another program (R 4.2.2
// with its survival package 3.5-3) computed from published data;
// testdata/README.md says which. Permutation tests of ordered and of several
// groups and of whole parcels, and Fisher's test of larger tables (but for one
// published table), are tested against a walk through every relabelling or
// table instead. Simulations show what the tests do when there is nothing to
// find.
package survival
