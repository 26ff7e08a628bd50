// Package sampling draws what is not known exactly, evenly enough that a few
// thousand draws tell its spread: a low-discrepancy sequence, normal
// distributions cut at what is possible, quantiles, and each input's share of
// the spread of what comes out. It knows nothing of trees and ropes.
//
// Everything is settled by a seed: the same seed gives the same draws on every
// machine, and draw n does not depend on how many are taken.
package sampling
