// Package cut solves the one-dimensional cutting stock problem: the fewest bars
// (reels, boards) of one length from which a list of pieces can be cut.
//
// It knows lengths and nothing of cables or wood. It does not know a saw's kerf:
// add it to the pieces and to the bar.
//
// The idea: hold the answer between two numbers until they meet.
//
//	from below   area                    what all pieces take of the bars
//	             dual feasible functions pieces over a half count whole, small
//	                                     ones not at all, others by steps
//	             linear program          columns are patterns, made as needed:
//	                                     the duals price a knapsack. Its duals
//	                                     are cut to whole numbers and priced
//	                                     once more in whole numbers, so that the
//	                                     bound owes nothing to rounding
//	from above   best fit decreasing     then swaps between bars that empty one
//	             dive                    keep the whole part of the program's
//	                                     answer, round its largest fraction up,
//	                                     finish by completion or solve again
//	both         bin completion          can it be done in the bound's number of
//	                                     bars? Each bar takes the longest piece
//	                                     left and is filled in every way that
//	                                     leaves nothing that would fit, within
//	                                     the waste that is left to spend
//
// Bin completion that comes to its end without an answer raises the bound by one
// bar. Where the steps run out, or the context ends, the best list found stands
// with Proved false and the bound beside it. The same pieces and steps give the
// same answer on every machine unless the context ends first.
package cut
