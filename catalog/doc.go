// Package catalog holds generic forms of what a board is built from: units,
// supplies, plugs, boards, materials and fasteners, each named by its size or
// its job.
//
// It knows TOML and package layout. It does not know plans, searches, checks
// or terminals.
//
// # Where forms come from
//
// The built-in forms are TOML files embedded in the program, one for each
// family. A player's own folder holds more such files; what they name is added,
// and a form whose name is taken replaces the other one whole:
//
//	embedded *.toml --+
//	                  +--> forms by name --> plugs and materials looked up
//	UserDir()/*.toml -+
//
// Plugs and materials are looked up last, so a player who measures a flat plug
// once has it in every form that uses it.
//
// # How sure a value is
//
// A form tells for each of its figures where it is from: read at a source,
// computed from a source's figures, from memory, or common practice without a
// source. See Value. A tape measure beats all four: plans may override any of
// them.
//
// # Reading
//
// One pass over the text notes where each key and value stands, a second one
// decodes it; then each form is taken apart key by key, and whatever is wrong is
// noted with file, line and column. All errors come back at once, as Errors.
package catalog
