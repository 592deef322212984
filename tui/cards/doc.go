// Package cards makes the forms of the editor: one for each thing of a plan that
// can be changed, with its fields, what each wants, and what each does to the
// plan.
//
// It knows plans, the catalog and the steps of tui/edit. It does not know keys,
// screens or files.
//
// A card is made of the plan as it is. Its fields are bound to copies of that
// plan by the names of things (a unit's id, a slot's name), never by pointers, so
// that a draft made of any copy is right. What a field leads to is a word that
// the editor's screens are found by.
package cards
