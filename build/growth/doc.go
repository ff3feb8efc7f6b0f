// Package growth turns counts and sizes of leaves and measures of roots into
// leaf area, root length, their ratio, growth rates and recovery.
//
// Lengths are in centimetres, areas in square centimetres of one side of the
// blade, days are whole. The area of one leaf is k·L·W (Montgomery 1911; Shi et
// al. 2019, Forests 10:178, read): length along the midrib, greatest width at
// right angles to it, and a factor k of the leaf's shape. Leaves are summed one
// by one; the sum of widths times the greatest length isn't proportional to area
// (Plants 2025, 14:73; abstract read).
//
// What was not seen is not made up. A plant whose leaves were never measured has
// no area, one with an uncounted new leaf has none either, and what is worked out
// from an earlier look is marked as estimated. Roots measured in different ways
// are never joined. No threshold of roots to leaves was found for bare-root
// imports, so none is offered. The package knows no diary: it is given looks in
// their order.
package growth
