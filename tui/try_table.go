package tui

// What to try and what to take along, beside the board itself.
const tryingOut = "Try, change over, print"

// tryTable is the part of the board's keys that leads to pages and modes of
// other boards, other units and paper.
func tryTable() table {
	return table{
		{also(bind("y", "y"), "tryout candidate form catalog slot shelf home does it fit"), tryingOut, nowTry, do((*Model).startTrying)},
		{also(bind("b", "b"), "smaller larger size wood frontier case bag"), tryingOut, nowBoards, do((*Model).startComparing)},
		{also(bind("g", "g"), "gig between sets swap card"), tryingOut, nowChangePage, do((*Model).changePage)},
		{also(bind("B", "B"), "shopping list prices cost"), tryingOut, always("what is still to buy, with prices, on a page"), do((*Model).shoppingPage)},
		{also(bind("W", "W"), "print paper sheet placement book labels gig card cables fasteners export pdf svg csv write"), tryingOut, mayOpen("write sheets: placement, build book, gig cards, labels, lists"), do((*Model).openPrinting)},
	}
}
