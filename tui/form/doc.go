// Package form is a form to fill in: fields with a label, a value, what is
// wanted and what is wrong, which together make a change of a plan.
//
// It knows plans, lengths and masses. It does not know keys, screens, colours
// or files: whoever draws it asks for the fields, and tells it what was typed.
//
// # How it works
//
// A form never changes the plan that it is about. At every letter the changes of
// all fields that were touched are made on a copy, which is checked as a whole:
//
//	plan --copy--> Begin --> fields --> Finish --> check --> draft
//	                           |                     |
//	                      wrong beside            wrong beside the
//	                       the field             field typed into last
//
// The draft can be shown while the form is filled in, and becomes the plan when
// it is taken. A field that was not touched is not set, so that a value shown
// rounded to what a tape measure reads stays exactly as it was.
package form
