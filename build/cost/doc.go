// Package cost says what plants cost by the time they stood on the bench: prices
// in one currency, shared costs split to the last cent, landed cost of a plant
// and of an import, and what each survivor cost.
//
// All amounts are exact decimals in whole cents (hundredths) of the diary's
// currency; no amount passes through a binary fraction. Each amount in another
// currency is converted once, at the rate that the import states, and rounded
// once, half to even. No single amount exceeds 10^10.
//
// Shares are by count or by price, the parts add up to the whole, and the odd
// cents go where the largest remainders are. No key of sharing is right for all:
// freight goes by size or number, insurance and tax by value (common practice;
// general accounting pages read). The package knows no rate that it wasn't given
// and refuses to divide by no survivors. Sections carry no cost: a caller gives
// only plants as they were received.
package cost
